/**
 * Coils on a bench as netlists of a general-purpose circuit simulator, with their truth from the netlists' own values: the product's
 * solver has no part in either. A square drive of known frequency for the on-time, then the bridge holds the primary shorted.
 */

import type { BenchRecord, Channel } from "../../src/description/record.ts";
import { runRows } from "../burst/simulator.ts";
import { chance, type Pole, polesOf, seen } from "./two-resonators.ts";

export interface BenchCoil {
  /** Tank and secondary: inductance [H], capacitance [F], resistance [Ω]. */
  readonly primary: { readonly inductance: number; readonly capacitance: number; readonly resistance: number };
  readonly secondary: { readonly inductance: number; readonly capacitance: number; readonly resistance: number };
  readonly coupling: number;
  /** Bus [V], drive [Hz], on-time and period [s], bursts; the period is a whole number of cycles of the drive. */
  readonly bus: number;
  readonly drive: number;
  readonly onTime: number;
  readonly period: number;
  readonly bursts: number;
  /** Delay [s] of a bridge that follows its own current instead of a clock; for one burst. */
  readonly follows?: number;
}

export interface BenchRun {
  readonly interval: number;
  readonly primaryCurrent: Float64Array;
  readonly bridge: Float64Array;
  /** Mean frequency of the bridge's commutations in the first burst [Hz]. */
  readonly carrier: number;
  /** Voltage in a loop that encloses flux of both windings. */
  readonly loop: Float64Array;
  /** 1 while the bridge is driven. */
  readonly gate: Float64Array;
}

/** When the first burst begins [s]. */
export const firstStart = 60e-6;

function netlistOf(
  { primary, secondary, coupling, bus, drive, onTime, period, bursts, follows }: BenchCoil,
  step: number,
): string {
  const end = firstStart + bursts * period;
  const edge = 2e-9;
  const cycle = 1 / drive;
  // Both sources begin with the first burst and meet again with every one: the period is a whole number of cycles.
  const clock = `Vsquare q 0 PULSE(-1 1 ${firstStart} ${edge} ${edge} ${cycle / 2 - edge} ${cycle})`;
  // A comparator with hysteresis and a latch, a delay line, and the level behind it.
  const comparator = `Bcmp 0 c1 I = I(Vsense)<-0.4 ? -V(c1)/10 : (I(Vsense)>0.4 ? (1-V(c1))/10 : 0)
Cc1 c1 0 1p ic=1
Ec2 c2 0 c1 0 1
Td c2 0 c3 0 Z0=50 TD=${follows}
Rt c3 0 50
Bq q 0 V = 2*V(c3)-1 + (V(w) < 0.5 ? 1 : 0)`;
  return `bench record
Vwindow w 0 PULSE(0 1 ${firstStart} ${edge} ${edge} ${onTime - edge} ${period})
${follows === undefined ? clock : comparator}
Bbridge x 0 V = V(w)*${bus / 2}*V(q)
Vsense x a 0
Ct a b ${primary.capacitance} ic=0
Rp b c ${primary.resistance}
Lp c 0 ${primary.inductance} ic=0
Ls s 0 ${secondary.inductance} ic=0
K1 Lp Ls ${coupling}
Rs s top ${secondary.resistance}
Cs top 0 ${secondary.capacitance} ic=0
Lloop l 0 1e-7
K2 Lp Lloop 0.02
K3 Ls Lloop 0.01
Rloop l 0 1e6
.options reltol=1e-5 abstol=1e-7 vntol=1e-5 method=trap itl4=100
.save i(vsense) v(l) v(w) v(x)
.tran ${step} ${end} 0 ${step} uic
.end`;
}

/** Runs a coil and samples it evenly. @param interval of the samples, simulated in as many steps of at most a 160th of a cycle */
export async function runBench(coil: BenchCoil, interval: number): Promise<BenchRun> {
  const step = Math.min(interval, 1 / (coil.drive * 160));
  const row = await runRows(netlistOf(coil, step));
  const time = row("time");
  const bridge = row("v(x)", "x");
  const onGrid = (values: Float64Array) => sampled(time, values, { interval, curved: true });
  return {
    interval,
    primaryCurrent: onGrid(row("i(vsense)", "vsense#branch")),
    bridge: sampled(time, bridge, { interval, curved: false }),
    carrier: carrierOf(time, bridge, firstStart + coil.onTime),
    // It jumps with the bridge: no curve is laid through it.
    loop: sampled(time, row("v(l)", "l"), { interval, curved: false }),
    gate: sampled(time, row("v(w)", "w"), { interval, curved: false }),
  };
}

/** From the instants at which the bridge's output passes zero from one rail to the other. */
function carrierOf(time: Float64Array, bridge: Float64Array, until: number): number {
  const passed: number[] = [];
  for (let i = 1; i < time.length && time[i]! < until; i++)
    if (bridge[i - 1]! * bridge[i]! < 0)
      passed.push(time[i]! - (bridge[i]! * (time[i]! - time[i - 1]!)) / (bridge[i]! - bridge[i - 1]!));
  return (passed.length - 1) / (2 * (passed.at(-1)! - passed[0]!));
}

/** Interpolation through two or four points of the simulator's own time. */
function sampled(
  time: Float64Array,
  values: Float64Array,
  { interval, curved }: { interval: number; curved: boolean },
): Float64Array {
  const count = Math.floor(time[time.length - 1]! / interval);
  const out = new Float64Array(count);
  let k = 1;
  for (let n = 0; n < count; n++) {
    const t = n * interval;
    while (k < time.length - 2 && time[k + 1]! < t) k++;
    const at = Math.max(1, Math.min(time.length - 3, k));
    let sum = 0;
    const [first, last] = curved ? [at - 1, at + 2] : [at, at + 1];
    for (let i = first; i <= last; i++) {
      let weight = 1;
      for (let j = first; j <= last; j++) if (j !== i) weight *= (t - time[j]!) / (time[i]! - time[j]!);
      sum += weight * values[i]!;
    }
    out[n] = sum;
  }
  return out;
}

/** Both poles of the shorted pair, lower first. */
export function polesOfBench({ primary, secondary, coupling }: BenchCoil): readonly Pole[] {
  const resonance = (l: number, c: number) => 1 / (2 * Math.PI * Math.sqrt(l * c));
  const quality = ({ inductance, capacitance, resistance }: BenchCoil["primary"]) =>
    Math.sqrt(inductance / capacitance) / resistance;
  return polesOf({
    primaryFrequency: resonance(primary.inductance, primary.capacitance),
    secondaryFrequency: resonance(secondary.inductance, secondary.capacitance),
    primaryQ: quality(primary),
    secondaryQ: quality(secondary),
    coupling,
  });
}

export interface Look {
  readonly channels: readonly ("primaryCurrent" | "pickupLoop" | "gate" | "bridgeOutput")[];
  /** Noise as a part of the peak, and the peak as a part of the instrument's range: above 1 it clips. */
  readonly noise: number;
  readonly fill: number;
  /** Samples that the trigger leaves out at the beginning. */
  readonly trigger: number;
  readonly seed: number;
}

/** What an instrument of 8 bits shows of a run, with 2 V per division, the trigger at the first sample shown plus a tenth of a millisecond. */
export function seenOnBench(run: BenchRun, { channels, noise, fill, trigger, seed }: Look): BenchRecord {
  const random = chance(seed);
  const range = 1 / fill;
  const shown = channels.map((role): Channel => {
    const clean = {
      gate: run.gate,
      primaryCurrent: run.primaryCurrent,
      pickupLoop: run.loop,
      bridgeOutput: run.bridge,
    }[role];
    const peak = clean.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const seenOf = seen(
      clean.subarray(trigger).map((value) => value / peak),
      role === "gate" || role === "bridgeOutput" ? { noise: 0.01, bits: 8 } : { noise, bits: 8, range, offset: 0.015 },
      random,
    );
    return { name: role, role, unit: "V", samples: Float32Array.from(seenOf, (value) => 4 * value) };
  });
  return { name: "bench", start: -1e-4, interval: run.interval, length: shown[0]!.samples.length, channels: shown };
}

/** A coil from what its builder knows. @param frequency of the secondary [Hz]; cycles of the drive in a burst */
export function benchCoil({
  frequency,
  detuning,
  coupling,
  qualities,
  drive,
  cycles,
  period,
  bursts,
}: {
  frequency: number;
  /** Tank's frequency over the secondary's. */
  detuning: number;
  coupling: number;
  qualities: readonly [number, number];
  /** Over the secondary's frequency. */
  drive: number;
  cycles: number;
  /** Cycles of the drive. */
  period: number;
  bursts: number;
}): BenchCoil {
  const square = (f: number) => (2 * Math.PI * f) ** 2;
  const [tank, winding] = [1.5e-7, 0.06];
  const primary = 1 / (square(frequency * detuning) * tank);
  const top = 1 / (square(frequency) * winding);
  return {
    primary: { inductance: primary, capacitance: tank, resistance: Math.sqrt(primary / tank) / qualities[0] },
    secondary: { inductance: winding, capacitance: top, resistance: Math.sqrt(winding / top) / qualities[1] },
    coupling,
    bus: 320,
    drive: drive * frequency,
    onTime: cycles / (drive * frequency),
    period: period / (drive * frequency),
    bursts,
  };
}
