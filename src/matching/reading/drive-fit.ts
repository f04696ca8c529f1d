/** The drive of a burst from the whole of it: when the bridge commutated, evenly or with the current that it drives. */
import {
  clearly,
  type DriveSearch,
  type Fitted,
  isExplained,
  knownPoles,
  leftOver,
  type Usual,
} from "./drive-search.ts";
import { secondaryFromDrive } from "./drive-zero.ts";
import { evenDrive } from "./even-drive.ts";
import { closeStarts, roughEven } from "./even-start.ts";
import { followingDrive } from "./following-drive.ts";
import { followingStart } from "./following-start.ts";

export interface DriveFitted {
  /** Places of start and end, with their standard errors. */
  readonly start: { readonly at: number; readonly error: number };
  readonly end: { readonly at: number; readonly error: number };
  readonly length: { readonly value: number; readonly error: number };
  /** Mean of the commutations, cycles per value. */
  readonly frequency: { readonly value: number; readonly error: number };
  /** The secondary's own, cycles per value, where both poles show in the primary's current. */
  readonly secondary?: { readonly value: number; readonly error: number };
  /** What one burst says of the next. */
  readonly usual: Usual;
  /** False where a drive that changes otherwise might look as even. */
  readonly sure: boolean;
  /** Mean square that is left, over the noise's variance. */
  readonly leftOver: number;
}

const fewestCycles = 4;
const mostCycles = 120;

/** Undefined where no square drive explains the burst. */
export function fitDrive(search: DriveSearch): DriveFitted | undefined {
  const { cycle, startNear, endNear, usual, answers } = search;
  const cycles = (endNear - startNear) / cycle;
  if (!(cycles > fewestCycles && cycles < mostCycles) || startNear < 2 * cycle || !(search.noise > 0)) return undefined;
  const known = knownPoles(search);
  const mayFollow = answers.includes("current");
  const begun = mayFollow && usual?.by !== "even" ? followingStart(search, known) : undefined;
  const rough = usual?.by === "current" ? [] : roughEven(search, known);
  const even = () => evenDrive(search, begun === undefined ? rough : rough.slice(0, 1));
  const following = () => (begun === undefined ? undefined : followingDrive(search, begun, known));
  // The way that explains more as it stands is fitted first.
  const evenFirst = begun === undefined || (rough[0]?.squares ?? Number.POSITIVE_INFINITY) < begun.squares;
  const first = evenFirst ? even() : following();
  // A pole that is free can make an even drive of one that is not: then both are compared.
  if (first !== undefined && known.length > 1 && leftOver(search, first.drive) < clearly)
    return resultOf(search, first);
  const second = evenFirst ? following() : even();
  const [best] = [first, second]
    .filter((one) => one !== undefined && isExplained(search, one))
    .sort((a, b) => (a?.drive.squares ?? 0) - (b?.drive.squares ?? 0));
  if (best !== undefined) return resultOf(search, best);
  const other = begun === undefined ? undefined : evenDrive(search, rough.slice(1));
  const last =
    other ??
    (rough.length > 0 && known.length > 1 ? evenDrive(search, roughEven(search, known, closeStarts)) : undefined);
  return last === undefined ? undefined : resultOf(search, last);
}

function resultOf(search: DriveSearch, { drive, by, answer, beside: part, endDoubt, zeroDoubt }: Fitted): DriveFitted {
  const { noise } = search;
  const { steps, basis, covariance } = drive;
  const variance = Math.max(noise, drive.squares / Math.max(1, drive.count - drive.parameters));
  const free = drive.moves.length;
  const spread = (weights: Float64Array) => {
    let sum = 0;
    for (let a = 0; a < free; a++)
      for (let b = 0; b < free; b++) sum += weights[a]! * weights[b]! * covariance[a * free + b]!;
    return Math.sqrt(variance * Math.max(0, sum));
  };
  const between = (a: number, b: number) => spread(basis[b]!.map((part, m) => part - basis[a]![m]!));
  const end = steps.length - 1;
  const span = steps[end - 1]! - steps[1]!;
  const frequency = (end - 2) / (2 * span);
  const secondary = answer === "current" && part === undefined ? secondaryFromDrive(drive, variance) : undefined;
  return {
    start: { at: steps[0]!, error: spread(basis[0]!) },
    end: { at: steps[end]!, error: Math.hypot(spread(basis[end]!), endDoubt) },
    length: { value: steps[end]! - steps[0]!, error: Math.hypot(between(0, end), endDoubt, zeroDoubt) },
    frequency: { value: frequency, error: (frequency * Math.hypot(between(1, end - 1), zeroDoubt)) / span },
    ...(secondary === undefined ? {} : { secondary }),
    usual: { by, answer, half: 0.5 / frequency, beside: part },
    sure: by === "current" || (part === undefined && leftOver(search, drive) < clearly),
    leftOver: leftOver(search, drive),
  };
}
