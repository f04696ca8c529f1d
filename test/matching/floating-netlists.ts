/**
 * Bursts of a half bridge with dead time, diodes, drops, bus capacitors and feedback in a general-purpose circuit simulator: the netlist
 * test/reference/burst-netlists/open-2.cir with other values and without its spark. The truth is the netlist's own.
 */
import { readFileSync } from "node:fs";
import type { BenchRecord, Channel } from "../../src/description/record.ts";
import { runRows } from "../burst/simulator.ts";
import { type Chance, seen } from "./two-resonators.ts";

export interface BridgeCoil {
  /** Of the secondary alone [Hz]; the tank's over it. */
  readonly frequency: number;
  readonly detuning: number;
  readonly coupling: number;
  readonly qualities: readonly [number, number];
  /** Whole bus [V]. */
  readonly bus: number;
  /** Cycles of the secondary in the on-time, and behind it until the record ends. */
  readonly cycles: number;
  readonly after: number;
  /** Lead, delay, dead time [s]. */
  readonly lead: number;
  readonly delay: number;
  readonly dead: number;
}

export interface BridgeRun {
  readonly coil: BridgeCoil;
  readonly interval: number;
  readonly primaryCurrent: Float64Array;
  readonly secondaryCurrent: Float64Array;
  readonly topVoltage: Float64Array;
  readonly gate: Float64Array;
  /** On-time [s], and mean rate of the output's changes in it [Hz]. */
  readonly onTime: number;
  readonly carrier: number;
  /** Top voltage that is left when the primary's current has stopped, over its peak. */
  readonly left: number;
}

const original = readFileSync(new URL("../reference/burst-netlists/open-2.cir", import.meta.url), "utf8");
const [tank, winding] = [1.2e-7, 0.03];
/** Quiet cycles before the start. */
const quiet = 14.37;

function netlistOf({ frequency, detuning, coupling, qualities, bus, cycles, after, lead, delay, dead }: BridgeCoil) {
  const second = 2 * Math.PI * frequency;
  const first = second * detuning;
  const primary = 1 / (first ** 2 * tank);
  const values: Record<string, number> = {
    Vbus: bus,
    Cb: 1e-3,
    Ct: tank,
    Lp: primary,
    Rp: (first * primary) / qualities[0],
    kc: coupling,
    Ls: winding,
    Cs: 1 / (second ** 2 * winding),
    Rs: (second * winding) / qualities[1],
    // A thirtieth of the current of the first half-cycle.
    Ith: bus / 2 / (first * primary) / 30,
    tlead: lead,
    tdel: delay,
    tdead: dead,
    Ton: cycles / frequency,
  };
  const step = 1 / (frequency * 320);
  let netlist = original.replace(/^\* spark load[\s\S]*?^Cspk.*\n/m, "").replace(" v(k2)", "");
  for (const [name, value] of Object.entries(values)) {
    const line = new RegExp(`^\\.param ${name}=.*$`, "m");
    if (!line.test(netlist)) throw new Error(`the netlist has no parameter ${name}`);
    netlist = netlist.replace(line, `.param ${name}=${value}`);
  }
  return netlist.replace(/^\.tran.*$/m, `.tran ${step} ${(cycles + after) / frequency} 0 ${step} uic`);
}

/** Runs a coil and samples it evenly. @param perCycle samples to a cycle of the secondary */
export async function runBridge(coil: BridgeCoil, perCycle: number): Promise<BridgeRun> {
  const row = await runRows(netlistOf(coil));
  const time = row("time");
  const interval = 1 / (coil.frequency * perCycle);
  const start = quiet / coil.frequency;
  const shown = (values: Float64Array) => sampled({ time, values }, { start, interval });
  const onTime = coil.cycles / coil.frequency;
  const changes = changesOf({ time, values: row("v(x)", "x") }, { end: onTime, apart: 0.2 / coil.frequency });
  const top = row("v(top)", "top");
  return {
    coil,
    interval,
    left: leftOf({ time, values: top }, row("i(vsense)", "vsense#branch")),
    primaryCurrent: shown(row("i(vsense)", "vsense#branch")),
    secondaryCurrent: shown(row("i(lsec)", "lsec#branch", "l.lsec#branch")),
    topVoltage: shown(top),
    gate: shown(time.map((t) => (t < onTime ? 1 : 0))),
    onTime,
    carrier: (changes.length - 1) / (2 * (changes.at(-1)! - changes[0]!)),
  };
}

interface Trace {
  readonly time: Float64Array;
  readonly values: Float64Array;
}

/**
 * When the output changed between the rails while it was driven, the start left out. In the dead time it may hop back and forth: zeros that
 * are not `apart` are one change where they are odd in number, at the last of them, and none where they are even.
 */
function changesOf({ time, values }: Trace, { end, apart }: { end: number; apart: number }): readonly number[] {
  const hops: number[][] = [];
  for (let n = 1; n < time.length && time[n]! < end; n++) {
    const [a, b] = [values[n - 1]!, values[n]!];
    if (a < 0 === b < 0 || time[n]! < apart) continue;
    const at = time[n - 1]! + ((time[n]! - time[n - 1]!) * a) / (a - b);
    const last = hops.at(-1);
    if (last !== undefined && at - last.at(-1)! < apart) last.push(at);
    else hops.push([at]);
  }
  return hops.flatMap((hop) => (hop.length % 2 === 1 ? [hop.at(-1)!] : []));
}

/** What is left of the peak once the current stays below a hundredth of its own. */
function leftOf({ values }: Trace, current: Float64Array): number {
  const greatest = (of: Float64Array) => of.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const limit = 0.01 * greatest(current);
  const last = current.findLastIndex((value) => Math.abs(value) > limit);
  return greatest(values.subarray(last)) / greatest(values);
}

/** Straight lines through the simulator's own points; 0 before the start. */
function sampled({ time, values }: Trace, { start, interval }: { start: number; interval: number }): Float64Array {
  const count = Math.floor((time[time.length - 1]! + start) / interval);
  const out = new Float64Array(count);
  let k = 1;
  for (let n = Math.ceil(start / interval); n < count; n++) {
    const t = n * interval - start;
    while (k < time.length - 1 && time[k]! < t) k++;
    const part = (t - time[k - 1]!) / (time[k]! - time[k - 1]!);
    out[n] = values[k - 1]! + part * (values[k]! - values[k - 1]!);
  }
  return out;
}

export type BridgeView = "current" | "top" | "flux" | "gate";

/** What an instrument shows of a run; peaks of 1 V. @param noise as a part of the peak; range: of the peak, below 1 it clips */
export function seenOnBridge(
  { interval, primaryCurrent, secondaryCurrent, topVoltage, gate }: BridgeRun,
  {
    views,
    noise,
    bits = 8,
    range = 1.15,
    trigger = 0,
    random,
  }: {
    views: readonly BridgeView[];
    noise: number;
    bits?: number;
    range?: number;
    /** Samples that the record leaves out at the beginning. */
    trigger?: number;
    random: Chance;
  },
): BenchRecord {
  const unit = (values: Float64Array) => {
    const peak = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    return values.map((value) => value / peak);
  };
  const [first, second] = [unit(primaryCurrent), unit(secondaryCurrent)];
  const looks: Record<BridgeView, Float64Array> = {
    current: first,
    top: unit(topVoltage),
    flux: unit(second.map((value, n) => value + 0.1 * first[n]!)),
    gate,
  };
  const channels = views.map((view): Channel => {
    const shown = seen(looks[view].subarray(trigger), { noise, bits, range, offset: 0.01 }, random);
    const role = view === "current" ? "primaryCurrent" : view === "gate" ? "gate" : "pickupLoop";
    return { name: view, role, unit: "V", samples: Float32Array.from(shown) };
  });
  return { name: "bridge", start: 0, interval, length: channels[0]!.samples.length, channels };
}
