/** Records to practise on: made up from a coil with one thing changed, as an instrument of eight bits would show it. None is a measurement. */
import { simulateBurst } from "../burst/index.ts";
import type { Coil } from "../description/coil.ts";
import { madeUpMark } from "../description/record.ts";
import { normals } from "../numerics/normals.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Hertz, Second, Volt } from "../units/si.ts";
import { burstCircuit } from "./burst-circuit.ts";
import { fullSetting } from "./burst-setting.ts";
import { numberAt, withNumber } from "./coil-path.ts";
import { isDrivenCoil } from "./match-burst.ts";
import type { Solve } from "./solve.ts";

export interface PracticeRecord {
  /** Of a file: `practice-3.csv`. */
  readonly name: string;
  readonly csv: string;
  /** How it is said to have been made. */
  readonly state: "low";
  readonly busVoltage: Volt;
  /** What was changed, in a sentence. */
  readonly answer: string;
}

interface Change {
  readonly says: string;
  readonly path?: string;
  /** The number at the path. */
  readonly to?: (now: number) => number;
  /** Bus over what is said of it. */
  readonly bus?: number;
}

const unchanged: Change = { says: "nothing was changed, the coil is as drawn" };
/** In an order that counting up does not give away. */
const changes: readonly Change[] = [
  { says: "the tank capacitor was 8 % low", path: "tank.bank.each", to: (now) => 0.92 * now },
  { says: "the bus was twice what was said of it", bus: 2 },
  unchanged,
  { says: "the tap was a whole turn short", path: "primary.tap", to: (now) => now - 1 },
  { says: "the primary stood 25 mm lower", path: "primary.baseHeight", to: (now) => now - 0.025 },
  { says: "the tank capacitor was lossy, with a dissipation of 2 %", path: "tank.bank.dissipation", to: () => 0.02 },
  { says: "the tank capacitor was 6 % high", path: "tank.bank.each", to: (now) => 1.06 * now },
  { says: "the tap was half a turn short", path: "primary.tap", to: (now) => now - 0.5 },
];

const saidBus: Volt = 60;
const samplesPerCycle = 40;
const cycles = { before: 20, driven: 14, after: 180 };
/** What a short antenna some way off makes of the top's volts, and the interrupter's high level [V]. Invented. */
const [antenna, gateHigh] = [2e-5, 5];
/** Of the peak. Invented. */
const instrument = { noise: 0.004, range: 1.2, offset: 0.003, codes: 256 };

/**
 * A burst at a low bus, seen by a current transformer with its scale, an antenna, and the interrupter's output.
 *
 * @param number  1, 2, …: each has one thing changed or none, and its own noise
 * @throws OutOfDomain  the coil has no complete bridge, supply, tank, primary and feedback, so that it has no burst
 * @source burst-simulation, with three modes of the secondary; instrument and changes are invented
 */
export function practiceRecord(coil: Coil, { number, solve }: { number: number; solve: Solve }): PracticeRecord {
  const { change, changed } = changedCoil(coil, number);
  if (!isDrivenCoil(changed))
    throw new OutOfDomain("practice", "needs a coil with bridge, supply, tank, primary and feedback");
  const solution = solve(changed, { brief: true });
  const setting = fullSetting(changed, solution, { busVoltage: saidBus * (change.bus ?? 1), modes: 3 });
  const { overcurrent: _trip, ...network } = burstCircuit(changed, solution, setting).network;
  const frequency: Hertz = solution.figures.get("poles.lower")!.value;
  const interval = evenInterval(1 / (samplesPerCycle * frequency));
  const [before, onTime, after] = [cycles.before, cycles.driven, cycles.after].map((count) => count / frequency) as [
    Second,
    Second,
    Second,
  ];
  const run = simulateBurst(network, { onTime, endTime: onTime + after, burstEnd: "synchronous" });
  const times = Float64Array.from(
    { length: Math.floor((before + onTime + after) / interval) },
    (_, n) => n * interval - before,
  );
  const lit = times.filter((time) => time > 0 && time < (run.waveforms?.end ?? 0));
  const samples = run.waveforms?.sample(lit);
  const random = normals(number);
  const first = times.findIndex((time) => time > 0);
  const column = (values: ArrayLike<number> | undefined, scale: number) => {
    const all = new Float64Array(times.length);
    all.set(
      Array.from(values ?? [], (value) => scale * value),
      first,
    );
    return seen(all, random);
  };
  const current = column(samples?.primaryCurrent, 1);
  const loop = column(samples?.topVoltage, antenna);
  return {
    name: `practice-${number}.csv`,
    state: "low",
    busVoltage: saidBus,
    answer: change.says,
    csv: [
      `# ${madeUpMark}`,
      `# a burst of ${coil.name.replace(/[\r\n]+/g, " ")} at a bus of ${saidBus} V, with one thing changed or none`,
      "time (s),primary current (A),pickup loop (V),interrupter gate (V)",
      ...Array.from(times, (time, n) =>
        [(time + before).toExponential(5), current[n], loop[n], time >= 0 && time < onTime ? gateHigh : 0].join(","),
      ),
      "",
    ].join("\n"),
  };
}

/** The change of this number; none where the coil has no such key. */
function changedCoil(coil: Coil, number: number): { readonly change: Change; readonly changed: Coil } {
  const change = changes[(number - 1) % changes.length] ?? unchanged;
  const { path, to } = change;
  if (path === undefined || to === undefined) return { change, changed: coil };
  const now = numberAt(coil, path);
  return now === undefined
    ? { change: unchanged, changed: coil }
    : { change, changed: withNumber(coil, path, to(now)) };
}

/** As an instrument's time base has it: 1, 2 or 5 of a decade. */
function evenInterval(most: Second): Second {
  const decade = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((one) => one * decade <= most) ?? 1;
  return Number((step * decade).toPrecision(1));
}

/** In the steps of the converter, with its noise and offset. */
function seen(values: Float64Array, random: () => number): readonly string[] {
  const peak = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1;
  const { noise, range, offset, codes } = instrument;
  const step = (2 * range * peak) / codes;
  return Array.from(values, (value) => {
    const code = Math.round((value + peak * (offset + noise * random())) / step);
    return (Math.max(-codes / 2, Math.min(codes / 2 - 1, code)) * step).toPrecision(5);
  });
}
