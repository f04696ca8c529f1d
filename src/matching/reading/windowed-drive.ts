/** Drives whose window a gate gives, read from a channel that rings on with known poles. */
import type { DriveFound } from "./burst-drive.ts";
import { type Driven, withBeside } from "./drive-search.ts";
import { levels } from "./drive-steps.ts";
import { combined, type Measured } from "./estimate.ts";
import { evenFrom } from "./even-drive.ts";
import { type FeedbackUsual, feedbackDrive, type StartSlack, windowOf } from "./feedback-drive.ts";
import type { Pole } from "./poles.ts";
import type { KnownPole, StepAnswer } from "./square-drive.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import type { SignalChannel } from "./tones.ts";
import type { Pulse } from "./two-level.ts";

/** Values to a cycle, cycles before the drive, and bursts that are read at most. */
const perCycle = 12;
const before = 12;
const mostBursts = 4;
const fewestCycles = 4;
const mostCycles = 120;
/** What the bridge is off its model, in half-cycles from the first commutation to the last; one burst is as far off as the next. */
const modelError = 0.006;
/** Standard errors to half the width of a pole's interval. */
const inHalf = 1.65;

/**
 * Mean frequency of a bridge that follows the primary's current [Hz]; undefined where none explains the bursts, or even drives do it better.
 *
 * @param evens     even drives that explain bursts
 * @param windows   when it was driven, in samples
 * @param interval  of the record [s]
 */
export function windowedCarrier(
  { samples, converter, frequency }: SignalChannel,
  windows: readonly Pulse[],
  {
    poles,
    answers,
    slack,
    evens,
    interval,
    peak,
  }: {
    poles: readonly Pole[];
    answers: readonly StepAnswer[];
    slack: StartSlack;
    evens: readonly DriveFound[];
    interval: number;
    peak: number;
  },
): Measured | undefined {
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const cycle = 1 / frequency / step;
  const time = interval * step;
  const found: Measured[] = [];
  let usual: FeedbackUsual | undefined;
  for (const { from: start, to: end } of spread(windows)) {
    const cycles = (end - start) * frequency;
    if (!(cycles > fewestCycles && cycles < mostCycles)) continue;
    const { values, from } = stretchOf(
      { samples, below: converter.below, above: converter.above },
      { from: start - before * cycle * step, to: end, step },
    );
    const place = (sample: number) => (sample - from) / step;
    const quiet = varianceOf(values.subarray(0, Math.max(0, Math.floor(place(start) - 2))));
    const noise = Math.max(quiet ?? 0, (0.29 * converter.step) ** 2 / step);
    if (!(noise > 0)) continue;
    const driven: Driven = { values, startNear: place(start), endNear: place(end), cycle, noise, peak };
    const known = poles.map((pole) => knownOf(pole, { time, noise }));
    const one = feedbackDrive(driven, known, { answers, slack, ...(usual === undefined ? {} : { usual }) });
    // Bursts of one drive are alike.
    if (one === undefined) return undefined;
    usual = one.usual;
    const even = evens.find(({ start: { at } }) => Math.abs(at - start) < evenNear * cycle * step);
    const rival = even === undefined ? undefined : leftByEven(driven, known, { even, place, step });
    if (rival !== undefined && rival < one.squares) return undefined;
    found.push({ value: one.frequency.value / time, error: one.frequency.error / time, freedom: 60 });
  }
  const mean = combined(found);
  if (mean === undefined) return undefined;
  const longest = windows.reduce((most, { from, to }) => Math.max(most, to - from), 0) * interval;
  return { ...mean, error: Math.hypot(mean.error, modelError / 2 / longest) };
}

/** Cycles by which an even drive may begin off the window that it belongs to. */
const evenNear = 3;

/** Σ residual² that an even drive leaves over the same window with as much freedom. */
function leftByEven(
  driven: Driven,
  known: readonly KnownPole[],
  { even, place, step }: { even: DriveFound; place: (sample: number) => number; step: number },
): number | undefined {
  const [first] = known;
  if (first === undefined || even.usual === undefined) return undefined;
  const { beside, answer } = even.usual;
  const poles = known.length > 1 || beside === undefined ? known : withBeside(first, beside, driven.noise);
  const half = 0.5 / (even.frequency.value * step);
  const left = levels.flatMap(
    (level) => evenFrom(windowOf(driven), { at: place(even.start.at), half, poles, level, answer })?.squares ?? [],
  );
  return left.length > 0 ? Math.min(...left) : undefined;
}

function spread(windows: readonly Pulse[]): readonly Pulse[] {
  const stride = Math.max(1, windows.length / mostBursts);
  return Array.from({ length: Math.min(mostBursts, windows.length) }, (_, i) => windows[Math.floor(i * stride)]!);
}

/** A pole per value of `time` seconds. */
function knownOf({ frequency, decayTime }: Pole, { time, noise }: { time: number; noise: number }): KnownPole {
  const angularError = (2 * Math.PI * time * (frequency.high - frequency.low)) / 2 / inHalf;
  const decayError = (time * (1 / decayTime.low - 1 / decayTime.high)) / 2 / inHalf;
  return {
    decay: time / decayTime.value,
    angular: 2 * Math.PI * time * frequency.value,
    decayWeight: noise / decayError ** 2,
    angularWeight: noise / angularError ** 2,
  };
}
