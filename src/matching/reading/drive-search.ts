/** What is given for a search of one burst's drive, and when a drive counts as found. */
import type { FreeDecay } from "./ring-down.ts";
import type { KnownPole, Span, SquareDrive, StepAnswer } from "./square-drive.ts";

export interface Usual {
  readonly by: "even" | "current";
  readonly answer: StepAnswer;
  /** Length of a half-cycle [values]. */
  readonly half: number;
  /** Of the drive's second pole, over the first. */
  readonly beside: number | undefined;
}

/** The values of a burst and where it is driven. */
export interface Driven {
  /** NaN where a value does not count; from the quiet before the burst into its free decay. */
  readonly values: Float64Array;
  /** Where the burst begins to stand out, and from where on the decay alone explains it. */
  readonly startNear: number;
  readonly endNear: number;
  /** Values to a cycle. */
  readonly cycle: number;
  /** Variance of the noise per value, and the greatest value. */
  readonly noise: number;
  readonly peak: number;
}

export interface DriveSearch extends Driven {
  readonly decay: FreeDecay;
  /** What the channel may be. */
  readonly answers: readonly StepAnswer[];
  readonly usual?: Usual;
}

/** Cycles before the start and of free decay that are fitted with the drive. */
const before = 5;
const after = 14;

/** Where a second pole is looked for that the decay does not show, over the first. */
export const beside = [0.8, 0.86, 0.91, 1.09, 1.15, 1.24];

/** Cycles by which start and end may be wrong beforehand. */
export const slack = 3;
export const endSlack = 5;

export interface Fitted {
  readonly drive: SquareDrive;
  readonly by: Usual["by"];
  readonly answer: StepAnswer;
  readonly beside: number | undefined;
  readonly endDoubt: number;
  /** Standard deviation of the first commutation where it was taken from the curve. */
  readonly zeroDoubt: number;
}

/** Residue of a drive that is explained: over the noise's variance, and over the greatest value where a channel is a little bent. */
const explainedOver = 1.35;
const bent = 0.0025;

/** The same where the channel jumps at every commutation, which an instrument rounds. */
const rounded = 0.006;

/** Residue up to which an even drive is taken without looking at another. */
export const clearly = 1.15;

/** Mean square that is left, over the noise's variance. */
export function leftOver({ noise }: Pick<Driven, "noise">, drive: SquareDrive): number {
  return drive.squares / (drive.count - drive.parameters) / noise;
}

export function isExplained(search: Pick<Driven, "noise" | "peak">, one: Pick<Fitted, "drive" | "answer">): boolean {
  return (
    leftOver(search, one.drive) <
    explainedOver + ((one.answer === "loop" ? rounded : bent) * search.peak) ** 2 / search.noise
  );
}

export function knownPoles({ decay: { fit, variance }, noise }: DriveSearch): readonly KnownPole[] {
  const size = 2 * fit.terms.length;
  return fit.terms.map(({ decay, angular }, k) => ({
    decay,
    angular,
    decayWeight: noise / (variance * fit.covariance[2 * k * (size + 1)]!),
    angularWeight: noise / (variance * fit.covariance[(2 * k + 1) * (size + 1)]!),
  }));
}

/** A pole and another that is hardly known. */
export function withBeside(first: KnownPole, part: number, noise: number): readonly KnownPole[] {
  const unknown = { decayWeight: (0.1 * noise) / first.decay ** 2, angularWeight: 0 };
  return [first, { ...unknown, decay: first.decay, angular: part * first.angular }];
}

/** Up to where nothing but the drive is fitted: the end is somewhere behind. */
function surelyDriven({ cycle, startNear, endNear }: DriveSearch): number {
  return Math.floor(endNear - Math.min(endSlack * cycle, (endNear - startNear) / 4));
}

/** The quiet before the burst and what is surely driven. */
export function drivenSpan(search: DriveSearch): Span {
  const { values, startNear, cycle } = search;
  return { values, from: Math.max(0, Math.floor(startNear - before * cycle)), to: surelyDriven(search) };
}

export function wholeOf({ values, cycle, startNear, endNear }: DriveSearch): Span {
  return {
    values,
    from: Math.max(0, Math.floor(startNear - before * cycle)),
    to: Math.min(values.length, Math.ceil(endNear + after * cycle)),
  };
}
