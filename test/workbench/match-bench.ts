/**
 * Records as a bench would give them, of coils with something wrong: the coil is solved and its bursts are simulated exactly with three modes
 * of the secondary, then seen through an instrument of 8 bits with noise. What the match uses (two loops, one mode) is coarser than this.
 */
import { readFileSync } from "node:fs";
import { simulateBurst } from "../../src/burst/index.ts";
import type { BurstNetwork } from "../../src/circuit/network.ts";
import type { Coil } from "../../src/description/coil.ts";
import type { BenchRecord } from "../../src/description/record.ts";
import { readRecord } from "../../src/matching/record.ts";
import { burstCircuit, type DrivenCoil } from "../../src/workbench/burst-circuit.ts";
import { fullSetting } from "../../src/workbench/burst-setting.ts";
import { withNumber } from "../../src/workbench/coil-path.ts";
import type { SweepRecord, TimeRecord } from "../../src/workbench/match.ts";
import type { ExplanationId } from "../../src/workbench/match-contract.ts";
import { solve } from "../../src/workbench/solve.ts";
import { chance, seen } from "../matching/two-resonators.ts";

export interface Bench {
  readonly bus: number;
  /** What the person believes the bus to be; the same where absent. */
  readonly said?: number;
  readonly onTime?: number;
  readonly seed?: number;
  readonly reversed?: boolean;
  /** Modes of the secondary that are simulated; three where absent. */
  readonly modes?: 1 | 3;
  readonly change?: (network: BurstNetwork) => BurstNetwork;
}

const [interval, before, length] = [40e-9, 150e-6, 1.5e-3];

/** A record with primary current, pickup loop and interrupter gate. */
export function benchRecord(
  coil: Coil,
  { bus, said = bus, onTime = 70e-6, seed = 1, reversed = false, modes = 3, change = (n) => n }: Bench,
): TimeRecord {
  const solution = solve(coil, { brief: true });
  const setting = fullSetting(coil, solution, { busVoltage: bus, modes, senseReversed: reversed });
  const { overcurrent: _trip, ...network } = burstCircuit(coil as DrivenCoil, solution, setting).network;
  const end = length - before;
  const run = simulateBurst(change(network), { onTime, endTime: end, burstEnd: "synchronous" });
  const count = Math.floor(length / interval);
  const times = Float64Array.from({ length: count }, (_, n) => n * interval - before);
  const inside = times.filter((time) => time > 0 && time < (run.waveforms?.end ?? 0));
  const samples = run.waveforms!.sample(inside);
  const placed = (values: Float64Array) => {
    const all = new Float64Array(count);
    const first = times.findIndex((time) => time > 0);
    all.set(values, first);
    return all;
  };
  const random = chance(seed);
  const shown = (values: Float64Array): Float32Array => {
    const peak = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1;
    const unit = values.map((value) => value / peak);
    return Float32Array.from(
      seen(unit, { noise: 0.004, bits: 8, range: 1.2, offset: 0.003 }, random),
      (value) => value * peak,
    );
  };
  const record: BenchRecord = {
    name: "bench.csv",
    start: -before,
    interval,
    length: count,
    channels: [
      { name: "CT", role: "primaryCurrent", unit: "A", samples: shown(placed(samples.primaryCurrent)) },
      { name: "loop", role: "pickupLoop", unit: "V", samples: shown(placed(samples.topVoltage)) },
      {
        name: "int",
        role: "gate",
        unit: "V",
        samples: Float32Array.from(times, (time) => (time >= 0 && time < onTime ? 5 : 0)),
      },
    ],
  };
  return { record, reading: readRecord(record), state: "low", busVoltage: said };
}

/** The record as an instrument would write it. */
export function csvOf({ record: { start, interval, length, channels } }: TimeRecord): string {
  const heads = { primaryCurrent: "primary current (A)", pickupLoop: "pickup loop (V)", gate: "interrupter gate (V)" };
  const rows = Array.from({ length }, (_, n) =>
    [
      (start + n * interval).toExponential(6),
      ...channels.map(({ samples }) => Number(samples[n]!.toPrecision(4))),
    ].join(","),
  );
  return `${["time (s)", ...channels.map(({ role }) => heads[role as keyof typeof heads])].join(",")}\n${rows.join("\n")}\n`;
}

export interface Planted {
  readonly id: ExplanationId;
  readonly is: Coil;
  readonly bench: Bench;
}

/** Ten coils with one thing wrong each. @param personAt [m] from the axis */
export function plantedFaults(coil: Coil, { bus, personAt }: { bus: number; personAt: number }): readonly Planted[] {
  const { tap, baseHeight } = coil.primary!;
  const bench = { bus };
  return [
    { id: "tank-capacitor", is: withNumber(coil, "tank.bank.each", 0.92 * coil.tank!.bank.each), bench },
    { id: "primary-turn", is: withNumber(coil, "primary.tap", tap - 1), bench },
    { id: "tap-half-turn", is: withNumber(coil, "primary.tap", tap - 0.5), bench },
    { id: "top-load-height", is: raised(coil, -0.03), bench },
    { id: "sense-reversed", is: coil, bench: { bus, reversed: true } },
    { id: "shorted-turn", is: coil, bench: { bus, change: shorted(0.05) } },
    { id: "lossy-capacitor", is: withNumber(coil, "tank.bank.dissipation", 0.02), bench },
    { id: "coupling-height", is: withNumber(coil, "primary.baseHeight", baseHeight - 0.02), bench },
    { id: "person-near", is: withPerson(coil, personAt), bench },
    { id: "bus-doubled", is: coil, bench: { bus: 2 * bus, said: bus } },
  ];
}

/** Somebody who stands nearer than drawn. */
export const withPerson = (coil: Coil, at: number): Coil => ({
  ...coil,
  site: { ...coil.site, people: [{ ...coil.site.people[0]!, at }] },
});

const raised = (coil: Coil, by: number): Coil =>
  coil.topload.reduce((made, part, n) => {
    const [kind, { height }] = Object.entries(part)[0] as [string, { height: number }];
    return withNumber(made, `topload.${n}.${kind}.height`, height + by);
  }, coil);

/** One turn of the secondary closed on itself, as an ideal transformer that takes a part of mode 1 and turns a fifth of that into loss. */
const shorted =
  (part: number) =>
  (network: BurstNetwork): BurstNetwork => {
    const [first, ...others] = network.modes;
    if (!first) return network;
    const reactance = Math.sqrt(first.inductance / first.capacitance);
    const mode = {
      ...first,
      inductance: first.inductance * (1 - part),
      resistance: first.resistance + 0.2 * part * reactance,
      mutual: first.mutual * Math.sqrt(1 - part),
    };
    return { ...network, modes: [mode, ...others] };
  };

/** Peaks of a sweep of two resonances at the poles of a coil as the field solver gives them. */
export function sweepOf(made: Coil, name: string, state: SweepRecord["state"] = "cold"): SweepRecord {
  const { figures } = solve(made, { brief: true });
  const [lower, upper] = [figures.get("poles.lower")!.value, figures.get("poles.upper")!.value];
  const frequency = Float64Array.from(
    { length: 321 },
    (_, n) => 0.85 * lower + n * ((1.15 * upper - 0.85 * lower) / 320),
  );
  const amplitude = frequency.map((f) => {
    const line = (f0: number) => {
      const x = 2 * 100 * (f / f0 - 1);
      return { re: 1 / (1 + x * x), im: -x / (1 + x * x) };
    };
    const [a, b] = [line(lower), line(upper)];
    return Math.hypot(a.re + 0.8 * b.re, a.im + 0.8 * b.im);
  });
  return { name, sweep: { frequency, amplitude }, state };
}

/** Text of a coil file that comes with the program. */
export const exampleText = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");
