/** The drive of one burst whose bridge floats behind it, where such a bridge explains the burst as a whole; in samples of the record. */
import type { ChannelRole } from "../../description/record.ts";
import type { DriveFound } from "./burst-drive.ts";
import type { Burst } from "./bursts.ts";
import type { FloatingView } from "./floating-burst.ts";
import { type FloatingSearch, lengthAt, type Parameters, project, startAt } from "./floating-fit.ts";
import { type FloatingFound, searchAlike, searchFloating } from "./floating-search.ts";
import type { FreeDecay } from "./ring-down.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import type { SignalChannel } from "./tones.ts";
import { smoothed } from "./zeros.ts";

/** What one burst says of the next. */
export interface FloatingUsual {
  readonly view: FloatingView;
  readonly cycle: number;
  readonly parameters: Parameters;
}

/** Values to a cycle. */
const perCycle = 12;
/** Cycles before the burst, of the free decay and of the quiet behind a current that are looked at. */
const before = 12;
const ofDecay = 10;
const ofQuiet = 4;
const fewestCycles = 8;
const mostCycles = 160;

/** What a channel may show. */
function viewsOf(role: ChannelRole, free: boolean): readonly FloatingView[] {
  if (role === "primaryCurrent") return ["current"];
  const loop = ["top", "flux", "loop"] as const;
  return role === "pickupLoop" || free ? loop : ["current", ...loop];
}

/**
 * @param free  the secondary's own ringing, per value of `step` samples, and the sample from which on it is free; a channel of the primary's
 *              current has none
 */
export function floatingDrive(
  { samples, converter, frequency }: SignalChannel,
  burst: Burst,
  {
    role,
    free,
    usual,
    alikeOnly = false,
  }: {
    role: ChannelRole;
    free?: { readonly decay: FreeDecay; readonly step: number; readonly from: number };
    usual?: FloatingUsual;
    /** What another burst showed is tried, and nothing else: a search from nothing takes half a second. */
    alikeOnly?: boolean;
  },
): DriveFound | undefined {
  if (burst.cutAtStart) return undefined;
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const cycle = 1 / frequency / step;
  const { values, from } = stretchOf(
    { samples, below: converter.below, above: converter.above },
    {
      from: burst.from - before * cycle * step,
      to: free === undefined ? burst.to + ofQuiet * cycle * step : free.from + ofDecay * cycle * step,
      step,
    },
  );
  const place = (sample: number) => (sample - from) / step;
  const startNear = onsetOf(values, { near: place(burst.from), cycle });
  const cycles = (values.length - startNear) / cycle;
  if (cycles < fewestCycles || cycles > mostCycles) return undefined;
  const quiet = varianceOf(values.subarray(0, Math.max(0, Math.floor(startNear - 3 * cycle))));
  const noise = Math.max(quiet ?? 0, (0.29 * converter.step) ** 2 / step);
  if (!(noise > 0)) return undefined;
  const line = free === undefined ? undefined : lineOf(free, step);
  const searchOf = (view: FloatingView, rough: number): FloatingSearch => ({
    values,
    view,
    cycle: rough,
    noise,
    ...(line === undefined ? {} : { line }),
  });
  const where = { startNear, end: values.length };
  const alike = usual && searchAlike(searchOf(usual.view, usual.cycle), usual.parameters, where);
  const found =
    alike ??
    (alikeOnly
      ? undefined
      : searchFloating(
          viewsOf(role, free !== undefined).map((view) => searchOf(view, cycle)),
          where,
        ));
  return found === undefined ? undefined : driveOf(found, { from, step });
}

/** Half-cycles that must stand clear of the noise in a row, and by how much. */
const clearHalves = 5;
const clear = 5;

/** Where the signal begins to stand clear of what is before it, for good. */
function onsetOf(values: Float64Array, { near, cycle }: { near: number; cycle: number }): number {
  const smooth = smoothed(values, cycle);
  const half = Math.ceil(cycle / 2);
  const quiet = varianceOf(smooth.subarray(Math.ceil(cycle), Math.max(0, Math.floor(near - 2 * cycle)))) ?? 0;
  const limit = clear * Math.sqrt(quiet);
  let since = 0;
  for (let n = Math.max(0, Math.floor(near - 2 * cycle)); n + half < smooth.length; n += half) {
    const most = smooth.subarray(n, n + half).reduce((peak, value) => Math.max(peak, Math.abs(value)), 0);
    since = most > limit ? since + 1 : 0;
    if (since === clearHalves) return n - (clearHalves - 1) * half;
  }
  return near;
}

/** The secondary's line with its errors, counted in values that are `step` samples apart. */
function lineOf({ decay, step: decayStep }: { decay: FreeDecay; step: number }, step: number): FloatingSearch["line"] {
  const { terms } = decay.fit;
  const at = terms.findIndex((one) => terms.every((other) => one.decay <= other.decay));
  const term = terms[at];
  if (term === undefined) return undefined;
  const factor = step / decayStep;
  const spread = (row: number) =>
    Math.sqrt(decay.variance * decay.fit.covariance[row * (2 * terms.length + 1)]!) * factor;
  return {
    // What rings is a little slower than without loss; both differ by less than their errors.
    angular: term.angular * factor,
    loss: 2 * term.decay * factor,
    angularError: spread(2 * at + 1),
    lossError: 2 * spread(2 * at),
  };
}

/** Cycles on either side of an end over which its likelihood is taken, and the steps of it. */
const about = 0.2;
const aboutSteps = 16;

/** What a circuit of so few numbers leaves out of a bridge, in half-cycles: standard deviation. */
const modelDoubt = 0.03;
/** Cycles by which the dead time moves the first change against the last: standard deviation. */
const changeDoubt = 0.003;
/** Cycles about the end within which the dead time leaves open whether the bridge changed once more; a whole number of the steps. */
const deadTime = 0.0625;

function driveOf(
  { search, fit, ends, window }: FloatingFound,
  { from, step }: { from: number; step: number },
): DriveFound {
  const { cycle, noise } = search;
  const variance = noise * Math.max(1, fit.leftOver);
  const lengths: { length: number; frequency: number; weight: number; open: number }[] = [];
  for (const { parameters, cost } of ends) {
    const own = Math.exp(-((cost - fit.cost) * noise) / (2 * variance));
    if (own < 1e-4) continue;
    const profile = profileOf(search, parameters, window);
    const least = Math.min(...profile.map(({ squares }) => squares));
    const beside = Math.round((deadTime * aboutSteps) / about);
    for (const [n, { length, frequency, squares }] of profile.entries()) {
      const others = [profile[n - beside], profile[n + beside]].map((one) => (one?.frequency ?? frequency) - frequency);
      lengths.push({
        length,
        frequency,
        weight: own * Math.exp(-(squares - least) / (2 * variance)),
        open: Math.max(...others.map(Math.abs)) / 2,
      });
    }
  }
  const length = meanOf(lengths.map((one) => ({ value: one.length, weight: one.weight })));
  const frequency = meanOf(lengths.map((one) => ({ value: one.frequency, weight: one.weight })));
  const open = meanOf(lengths.map((one) => ({ value: one.open, weight: one.weight }))).value;
  const spread = spreadOf({ search, fit, window });
  const { stopped } = fit.projected.burst;
  const changes = (frequency.value * changeDoubt * cycle) / length.value;
  const startError = spread.start * Math.sqrt(Math.max(1, fit.leftOver));
  const model = (modelDoubt * cycle) / 2;
  const start = from + fit.parameters[startAt]! * step;
  const lengthError = Math.hypot(length.error, startError, model);
  return {
    start: { at: start, error: Math.hypot(startError, model) * step },
    end: { at: start + length.value * step, error: Math.hypot(length.error, model) * step },
    length: { value: length.value * step, error: lengthError * step },
    frequency: {
      value: frequency.value / step,
      error: Math.hypot(changes, frequency.error, open, spread.frequency * Math.sqrt(Math.max(1, fit.leftOver))) / step,
    },
    leftOver: fit.leftOver,
    sure: true,
    ...(stopped === undefined ? {} : { stopped: from + stopped * step }),
    floating: { view: search.view, cycle, parameters: fit.parameters },
  };
}

/** Squares and mean of the changes for ends about that of a fit. */
function profileOf(search: FloatingSearch, parameters: Parameters, window: FloatingFound["window"]) {
  return Array.from({ length: 2 * aboutSteps + 1 }, (_, n) => {
    const p = Float64Array.from(parameters);
    p[lengthAt]! += ((n - aboutSteps) * about * search.cycle) / aboutSteps;
    const projected = project(search, p, window);
    return {
      length: p[lengthAt]!,
      frequency: meanRate(projected?.burst.changes ?? []),
      squares: projected?.squares ?? Number.POSITIVE_INFINITY,
    };
  });
}

function meanRate(changes: readonly number[]): number {
  return changes.length < 2 ? Number.NaN : (changes.length - 1) / (2 * (changes.at(-1)! - changes[0]!));
}

function meanOf(values: readonly { value: number; weight: number }[]): { value: number; error: number } {
  const total = values.reduce((sum, { weight }) => sum + weight, 0);
  const value = values.reduce((sum, one) => sum + one.weight * one.value, 0) / total;
  const squares = values.reduce((sum, one) => sum + one.weight * (one.value - value) ** 2, 0) / total;
  return { value, error: Math.sqrt(squares) };
}

/** Standard errors, from the noise as it is, of the start and of the mean rate of the changes, with the length as it stands. */
function spreadOf({ search, fit, window }: Pick<FloatingFound, "search" | "fit" | "window">): {
  start: number;
  frequency: number;
} {
  const { covariance, parameters, projected } = fit;
  if (covariance === undefined) return { start: search.cycle / 4, frequency: Number.NaN };
  const size = lengthAt;
  const count = projected.burst.changes.length;
  const slopes = parameters.subarray(0, size).map((_, m) => {
    const error = Math.sqrt(Math.max(0, covariance[m * (size + 1)]!));
    const moved = Float64Array.from(parameters);
    const by = 0.1 * error;
    moved[m]! += by;
    const changes = project(search, moved, window)?.burst.changes ?? [];
    return changes.length === count && by > 0 ? (meanRate(changes) - meanRate(projected.burst.changes)) / by : 0;
  });
  let squares = 0;
  for (let a = 0; a < size; a++)
    for (let b = 0; b < size; b++) squares += slopes[a]! * slopes[b]! * covariance[a * size + b]!;
  return {
    start: Math.sqrt(Math.max(0, covariance[startAt * (size + 1)]!)),
    frequency: Math.sqrt(Math.max(0, squares)),
  };
}
