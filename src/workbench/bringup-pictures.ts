/** What an instrument shows at each powered test point, as lines. */
import { type BurstResult, simulateBurst } from "../burst/index.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Hertz, Second, Volt } from "../units/si.ts";
import type { LowBurst } from "./bringup-bursts.ts";
import type { ExpectedPicture, ExpectedTrace } from "./bringup-contract.ts";
import type { BurstStudy } from "./burst-contract.ts";
import { withNumber } from "./coil-path.ts";
import type { Solution } from "./contract.ts";
import { networkToMove } from "./match-burst.ts";
import { solve } from "./solve.ts";

/** Points of a picture, and the most of a whole burst. */
const points = { detail: 240, burst: 900 };
/** Samples of a cycle that still draw it. */
const perCycle = 14;

/** To five digits: no picture shows more. */
export const drawn = (values: ArrayLike<number>): number[] =>
  Array.from(values, (value) => (value === 0 ? 0 : Number(value.toPrecision(5))));

export const evenly = ({ from, to, count }: { from: number; to: number; count: number }): Float64Array =>
  Float64Array.from({ length: count }, (_, n) => (n === count - 1 ? to : from + ((to - from) * n) / (count - 1)));

export const trace = (
  id: ExpectedTrace["id"],
  says: string,
  unit: string,
  values: ArrayLike<number>,
): ExpectedTrace => ({
  id,
  says,
  unit,
  values: drawn(values),
});

/** The whole burst with its ringing: current, bridge, top. */
export function burstPicture({ result, onTime, catches }: Pick<LowBurst, "result" | "onTime" | "catches">) {
  const { waveforms } = result;
  if (!waveforms || !(waveforms.end > 0)) return undefined;
  const cycles = waveforms.end * (result.meanFrequency ?? 0);
  const count = Math.max(points.detail, Math.min(points.burst, Math.ceil(perCycle * cycles)));
  const samples = waveforms.sample(evenly({ from: 0, to: waveforms.end, count }));
  const offTime = result.gatesOffTime ?? onTime;
  return {
    against: "time",
    unit: "s",
    at: drawn(samples.time),
    traces: [
      trace("primaryCurrent", "primary current", "A", samples.primaryCurrent),
      trace(
        "interrupter",
        "interrupter",
        "1",
        samples.time.map((time) => (time < onTime ? 1 : 0)),
      ),
      trace("topVoltage", "top, as a pickup far off shows its shape", "V", samples.topVoltage),
    ],
    marks: [
      ...(catches && offTime < waveforms.end
        ? [{ at: offTime, says: "the gates go off at the current's zero after the interrupter" }]
        : []),
      ...greatestMark(result),
    ],
    note: "one burst from rest, no streamer; two loops and the bridge, higher modes left out",
  } satisfies ExpectedPicture;
}

const greatestMark = ({ envelope }: BurstResult) => {
  const top = envelope.reduce<(typeof envelope)[number] | undefined>(
    (best, one) => (best && best.current >= one.current ? best : one),
    undefined,
  );
  return top ? [{ at: top.time, says: "the greatest half-cycle: read this one" }] : [];
};

/** Three cycles before the drive ends: where current and bridge cross zero. */
export function crossingPicture({ result, onTime }: LowBurst): ExpectedPicture | undefined {
  const { waveforms, meanFrequency } = result;
  if (!waveforms || meanFrequency === undefined) return undefined;
  const to = Math.min(waveforms.end, result.gatesOffTime ?? onTime, onTime);
  const samples = waveforms.sample(evenly({ from: Math.max(0, to - 3 / meanFrequency), to, count: points.detail }));
  const crossings = Array.from(samples.primaryCurrent).flatMap((now, n, all) => {
    const before = all[n - 1];
    if (before === undefined || before * now >= 0) return [];
    const [from, until] = [samples.time[n - 1]!, samples.time[n]!];
    return [from + ((until - from) * before) / (before - now)];
  });
  return {
    against: "time",
    unit: "s",
    at: drawn(samples.time),
    traces: [
      trace("primaryCurrent", "primary current", "A", samples.primaryCurrent),
      trace("bridge", "bridge output", "V", samples.driveVoltage),
    ],
    marks: crossings.map((at) => ({ at, says: "current through zero: the bridge has just switched" })),
    note: "edges of the bridge are drawn as steps",
  };
}

/** A burst at the level of the trip: cut short at a zero of the current. */
export function tripPicture({ network, onTime, peakCurrent, result: free }: LowBurst): ExpectedPicture | undefined {
  const overcurrent = { limit: 0.7 * peakCurrent.value, action: "synchronous" } as const;
  try {
    const endTime = free.waveforms?.end ?? 2 * onTime;
    const result = simulateBurst({ ...network, overcurrent }, { onTime, endTime, burstEnd: "synchronous" });
    const picture = burstPicture({ result, onTime, catches: true });
    if (!picture || result.tripTime === undefined) return undefined;
    return { ...picture, marks: [{ at: result.tripTime, says: "the trip speaks; the gates go off at the next zero" }] };
  } catch (error) {
    if (error instanceof OutOfDomain) return undefined;
    throw error;
  }
}

/** Current and top of a study with its waveforms, thinned. */
export function studyPicture({ waveforms, breakoutTime, tripTime }: BurstStudy): ExpectedPicture | undefined {
  if (!waveforms || waveforms.time.length < 2) return undefined;
  const every = Math.max(1, Math.ceil(waveforms.time.length / points.burst));
  const thinned = (values: Float64Array) => values.filter((_, n) => n % every === 0);
  return {
    against: "time",
    unit: "s",
    at: drawn(thinned(waveforms.time)),
    traces: [
      trace("primaryCurrent", "primary current", "A", thinned(waveforms.primaryCurrent)),
      trace("topVoltage", "top, as a pickup far off shows its shape", "V", thinned(waveforms.topVoltage)),
    ],
    marks: [
      ...(breakoutTime === undefined
        ? []
        : [{ at: breakoutTime, says: "the top breaks out: the envelope bends here" }]),
      ...(tripTime === undefined ? [] : [{ at: tripTime, says: "the trip speaks" }]),
    ],
    note: "one burst of a steady train",
  };
}

/** Greatest top voltage of one burst at each tap, over the greatest of all. */
export function tapPicture({
  solution,
  bus,
  onTime,
  about,
}: {
  solution: Solution;
  bus: Volt;
  onTime: Second;
  about: number;
}): ExpectedPicture | undefined {
  const { coil } = solution;
  const turns = coil.primary?.turns ?? 0;
  const from = Math.max(0.5, Math.ceil(4 * (about - 1)) / 4);
  const at = Array.from({ length: 9 }, (_, n) => from + n / 4).filter((tap) => tap <= turns);
  const found = at.flatMap((tap) => {
    const made = solve(withNumber(coil, "primary.tap", tap), { brief: true });
    const network = networkToMove(made);
    if (!network) return [];
    const moved = { ...network, bus: { ...network.bus, voltage: bus } };
    const run = simulateBurst(moved, { onTime, endTime: 2 * onTime, burstEnd: "synchronous", waveforms: false });
    return [{ tap, top: run.peakTopVoltage, current: run.peakPrimaryCurrent }];
  });
  const most = Math.max(0, ...found.map(({ top }) => top));
  if (found.length < 3 || !(most > 0)) return undefined;
  const best = found.find(({ top }) => top === most)!;
  return {
    against: "tap",
    unit: "1",
    at: found.map(({ tap }) => tap),
    traces: [
      trace(
        "pickup",
        "pickup's greatest amplitude, over the best",
        "1",
        found.map(({ top }) => top / most),
      ),
      trace(
        "primaryCurrent",
        "greatest primary current",
        "A",
        found.map(({ current }) => current),
      ),
    ],
    marks: [{ at: best.tap, says: "the tap of the greatest amplitude without a streamer" }],
    note: "one burst at each tap, no streamer; the last digit depends on the length of the burst",
  };
}

/** The bus over some bursts, and the mains current that fills it: a rectifier with a resistance, each burst taking its energy at once. */
export function busPicture({
  study,
  frequency,
  resistance,
  capacitance,
}: {
  study: BurstStudy;
  frequency: Hertz;
  resistance: number;
  capacitance: number;
}): ExpectedPicture | undefined {
  const of = (id: string): number | undefined => study.figures.get(id)?.value;
  const [given, returned] = [of("burst.energyDrawn"), of("burst.energyReturned")];
  const energy = given === undefined || returned === undefined ? undefined : given - returned;
  const { rate, busVoltage: peak } = study.setting;
  if (!(energy !== undefined && energy > 0 && rate > 0 && peak > 0 && capacitance > 0 && resistance > 0))
    return undefined;
  const span = 2 / frequency;
  const steps = 1600;
  const step = span / steps;
  const settle = 10;
  let volts = peak;
  const rows: { time: number; volts: number; current: number }[] = [];
  for (let n = -settle * steps; n <= steps; n++) {
    const time = n * step;
    const current = Math.max(0, (peak * Math.abs(Math.sin(2 * Math.PI * frequency * time)) - volts) / resistance);
    volts += (current * step) / capacitance;
    // A burst begins wherever the count of periods steps.
    if (Math.floor(time * rate) > Math.floor((time - step) * rate)) {
      volts = Math.sqrt(Math.max(0, volts * volts - (2 * energy) / capacitance));
    }
    if (n >= 0 && n % 4 === 0) rows.push({ time, volts, current });
  }
  return {
    against: "time",
    unit: "s",
    at: drawn(rows.map(({ time }) => time)),
    traces: [
      trace(
        "busVoltage",
        "bus",
        "V",
        rows.map((row) => row.volts),
      ),
      trace(
        "mainsCurrent",
        "mains current, rectified",
        "A",
        rows.map((row) => row.current),
      ),
    ],
    marks: [{ at: 1 / rate, says: "a burst takes its energy" }],
    note: "mains of 0.5 Ω with the capacitors' own resistance, a rectifier without drops; a doubler is drawn as one capacitor",
  };
}
