/**
 * Bursts behind a bridge with switches, diodes, dead time, sinking bus and a comparator that follows the current, from the netlist of the
 * open case with other values, run by a general-purpose circuit simulator; the truth from those values alone. After the drive the diodes give
 * the primary's energy back, so that no free decay shows both poles.
 */
import { readFileSync } from "node:fs";
import type { BenchRecord, Channel } from "../../src/description/record.ts";
import { runNetlist } from "../burst/simulator.ts";
import { chance, type Pole, polesOf, seen } from "./two-resonators.ts";

export interface BridgeCoil {
  /** Of the secondary alone [Hz], and of the tank over it. */
  readonly frequency: number;
  readonly detuning: number;
  readonly coupling: number;
  readonly qualities: readonly [number, number];
  readonly tankCapacitance: number;
  /** Between the rails [V]; a full bridge is a half bridge of twice the bus and twice the drops. */
  readonly bus: number;
  readonly bridge: "half" | "full";
  /** Of the comparator [s], with a lead that acts against it, and its threshold [A]. */
  readonly delay: number;
  readonly lead: number;
  readonly deadTime: number;
  readonly threshold: number;
  /** Of the secondary's frequency. */
  readonly cycles: number;
}

export interface BridgeRun {
  readonly time: Float64Array;
  readonly primaryCurrent: Float64Array;
}

const netlist = readFileSync(new URL("../reference/burst-netlists/open-2.cir", import.meta.url), "utf8");
const secondaryInductance = 0.04;

function netlistOf(coil: BridgeCoil, end: number): string {
  const { frequency, detuning, coupling, qualities, tankCapacitance, bridge, cycles } = coil;
  const own = 2 * Math.PI * frequency;
  const tank = own * detuning;
  const inductance = 1 / (tank * tank * tankCapacitance);
  const twice = bridge === "full" ? 2 : 1;
  const values = {
    Vbus: coil.bus * twice,
    Cb: 1e-3,
    Resr: 0.03,
    Vce0: twice,
    Rce: 0.015 * twice,
    Vf0: 0.95 * twice,
    Rd: 0.013 * twice,
    Ct: tankCapacitance,
    Lp: inductance,
    Rp: (tank * inductance) / qualities[0],
    kc: coupling,
    Ls: secondaryInductance,
    Cs: 1 / (own * own * secondaryInductance),
    Rs: (own * secondaryInductance) / qualities[1],
    Ith: coil.threshold,
    tlead: coil.lead,
    tdel: coil.delay,
    tdead: coil.deadTime,
    Ton: cycles / frequency,
    Cpar: 4e-10,
    // Beyond what the top reaches: nothing breaks out.
    Vbo: 1e9,
  };
  return Object.entries(values)
    .reduce(
      (text, [name, value]) => text.replace(new RegExp(`^\\.param ${name}=.*$`, "m"), `.param ${name}=${value}`),
      netlist,
    )
    .replace(/^(\.tran \S+) \S+/m, `$1 ${end}`);
}

/** @param perCycle  steps of the simulation to a cycle */
export async function runBridge(coil: BridgeCoil, perCycle = 400): Promise<BridgeRun> {
  const { frequency, cycles } = coil;
  const { time, primaryCurrent } = await runNetlist({
    netlist: netlistOf(coil, (cycles + 18) / frequency),
    step: 1 / (perCycle * frequency),
  });
  return { time, primaryCurrent };
}

/** Both poles of tank and secondary with the bridge a short, lower first. */
export const polesOfBridge = ({ frequency, detuning, coupling, qualities }: BridgeCoil): readonly Pole[] =>
  polesOf({
    primaryFrequency: frequency * detuning,
    secondaryFrequency: frequency,
    primaryQ: qualities[0],
    secondaryQ: qualities[1],
    coupling,
  });

/** What an instrument of 8 bits shows of the current: another noise, sample rate and trigger for each seed. */
export function seenBehindBridge({ time, primaryCurrent }: BridgeRun, coil: BridgeCoil, seed: number): BenchRecord {
  const random = chance(seed);
  const perCycle = random.between(18, 40);
  const interval = 1 / (coil.frequency * perCycle);
  const start = random.between(15, 25) / coil.frequency;
  const end = start + time[time.length - 1]! + 25 / coil.frequency;
  const peak = primaryCurrent.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let k = 0;
  const clean = Float64Array.from({ length: Math.floor(end / interval) }, (_, n) => {
    const t = n * interval - start;
    if (t < 0 || t >= time[time.length - 1]!) return 0;
    while (time[k + 1]! <= t) k++;
    const part = (t - time[k]!) / (time[k + 1]! - time[k]!);
    return (primaryCurrent[k]! + part * (primaryCurrent[k + 1]! - primaryCurrent[k]!)) / peak;
  });
  const shown = seen(clean, { noise: 0.004, bits: 8, range: 1.15, offset: 0.01 }, random);
  const channel: Channel = {
    name: "CT",
    role: "primaryCurrent",
    unit: "A",
    samples: Float32Array.from(shown, (value) => value * peak),
  };
  return { name: "bridge", start: 0, interval, length: channel.samples.length, channels: [channel] };
}
