/** Where the fit of a driven pair begins: all pairs of poles are tried, each amplitude by linear least squares, and the best refined. */
import { differenceSlopes } from "../../numerics/difference-slopes.ts";
import { levenbergMarquardt } from "../../numerics/levenberg-marquardt.ts";
import { emptyNormal, type Normal, observe, solveNormal } from "../../numerics/normal-equations.ts";
import { type CoupledPair, pairOfPoles, secondaryOf } from "./pair-answer.ts";
import { usualDelay } from "./pair-steps.ts";
import { curveOf } from "./square-drive.ts";

/**
 * What the trial takes as given: the changes of the bridge but for one delay. It begins within the drive, from a state of which nothing is
 * known, so that neither the start nor the number of half-cycles before it matters.
 */
export interface Trial {
  readonly values: Float64Array;
  readonly from: number;
  readonly to: number;
  readonly noise: number;
  readonly cycle: number;
  /** Changes of the bridge before any delay, from before `from` on. */
  readonly changes: Float64Array;
}

export interface PairStart {
  readonly pair: CoupledPair;
  /** In cycles. */
  readonly delay: number;
  readonly squares: number;
}

/** Poles are looked for from here to there, over the carrier, as finely as a drive of so many cycles tells them apart. */
const lookedFor = { from: 0.72, to: 1.4 };
const spacing = { share: 0.3, least: 0.01, most: 0.03 };
/** Poles nearer to each other are one, for any coupling worth the name. */
const closest = 1.045;
const screeningQ = 70;
/** Delays of the bridge that are tried [cycles]. */
const delays = [-0.01, 0.03, 0.07, 0.11];
/** Values to a cycle that screening needs. */
const perCycle = 9;
/** Pairs that are refined, and how far apart they are. */
const refined = { most: 4, apart: 0.035 };

/** Best first; empty where none has amplitudes of one sign. */
export function pairStarts(trial: Trial): readonly PairStart[] {
  const picked: Candidate[] = [];
  for (const one of screened(trial)) {
    const isNew = picked.every(
      ({ lower, upper }) => Math.abs(lower - one.lower) > refined.apart || Math.abs(upper - one.upper) > refined.apart,
    );
    if (isNew) picked.push(one);
    if (picked.length >= refined.most) break;
  }
  const found = picked.flatMap((one) => refine(trial, one) ?? []).sort((a, b) => a.squares - b.squares);
  // Several places of the grid lead to one pair.
  return found.filter((one, n) => found.slice(0, n).every((before) => !isSame(before.pair, one.pair)));
}

const isSame = (one: CoupledPair, other: CoupledPair): boolean =>
  Math.abs(one.tank / other.tank - 1) < same &&
  Math.abs(one.secondary / other.secondary - 1) < same &&
  Math.abs(one.coupling / other.coupling - 1) < 10 * same;
const same = 3e-3;

interface Candidate {
  /** Over the carrier. */
  readonly lower: number;
  readonly upper: number;
  readonly delay: number;
  readonly squares: number;
}

/** Answer of one pole to the drive, and what it rings of itself from the first value on: three columns. */
function columnsOf(
  { from, to, cycle, changes }: Trial,
  { part, q, delay, every }: { part: number; q: number; delay: number; every: number },
): readonly Float64Array[] {
  const angular = (2 * Math.PI * part) / cycle;
  const poles = [{ decay: angular / (2 * q), angular }];
  const span = { from, to, every };
  const steps = changes.map((place) => place + delay * cycle);
  const heights = steps.map((_, j) => (j === 0 ? 1 : j % 2 === 1 ? -2 : 2));
  const own = { steps: Float64Array.of(from), poles };
  return [
    curveOf({ poles, real: [0], imaginary: [-1], steps }, { heights, ...span }),
    curveOf({ ...own, real: [1], imaginary: [0] }, { heights: Float64Array.of(1), ...span }),
    curveOf({ ...own, real: [0], imaginary: [-1] }, { heights: Float64Array.of(1), ...span }),
  ];
}

/** Places on a grid that no neighbour beats, best first. */
function screened(trial: Trial): readonly Candidate[] {
  const { cycle, from, to, values } = trial;
  const stride = Math.min(spacing.most, Math.max(spacing.least, (spacing.share * cycle) / (to - from)));
  const parts = Array.from(
    { length: Math.floor((lookedFor.to - lookedFor.from) / stride) },
    (_, i) => lookedFor.from + i * stride,
  );
  const every = Math.max(1, Math.floor(cycle / perCycle));
  const count = Math.floor((to - from) / every);
  const shown = Float64Array.from({ length: count }, (_, n) => {
    const value = values[from + n * every]!;
    return value - value === 0 ? value : 0;
  });
  const found = delays.flatMap((delay) => {
    const columns = parts.flatMap((part) => columnsOf(trial, { part, q: screeningQ, delay, every }));
    const gram = gramOf([...columns, new Float64Array(count).fill(1), shown], count);
    const best = new Map<number, Candidate>();
    for (let i = 0; i < parts.length; i++)
      for (let j = i + 1; j < parts.length; j++) {
        if (parts[j]! < closest * parts[i]!) continue;
        const squares = squaresOf(gram, i, j, parts.length);
        if (squares !== undefined)
          best.set(i * parts.length + j, { lower: parts[i]!, upper: parts[j]!, delay, squares });
      }
    const beaten = (key: number, { squares }: Candidate) =>
      [-1, 0, 1].some((di) =>
        [-1, 0, 1].some((dj) => (best.get(key + di * parts.length + dj)?.squares ?? squares) < squares),
      );
    return [...best].filter(([key, one]) => !beaten(key, one)).map(([, one]) => one);
  });
  return found.sort((a, b) => a.squares - b.squares);
}

/** All products of columns, row-major. */
function gramOf(columns: readonly Float64Array[], count: number): Float64Array {
  const size = columns.length;
  const gram = new Float64Array(size * size);
  for (let a = 0; a < size; a++)
    for (let b = 0; b <= a; b++) {
      const [left, right] = [columns[a]!, columns[b]!];
      let sum = 0;
      for (let n = 0; n < count; n++) sum += left[n]! * right[n]!;
      gram[a * size + b] = sum;
      gram[b * size + a] = sum;
    }
  return gram;
}

/** Squares that two poles of the grid leave; undefined where their amplitudes have not one sign, as a tank's current has them. */
function squaresOf(gram: Float64Array, i: number, j: number, parts: number): number | undefined {
  const all = 3 * parts + 2;
  const pick = [3 * i, 3 * j, 3 * i + 1, 3 * i + 2, 3 * j + 1, 3 * j + 2, 3 * parts];
  const normal: Normal = emptyNormal(pick.length);
  pick.forEach((a, row) => {
    normal.side[row] = gram[a * all + all - 1]!;
    pick.forEach((b, column) => {
      normal.matrix[row * pick.length + column] = gram[a * all + b]!;
    });
  });
  const solved = solveNormal(normal)?.solution;
  if (solved === undefined || !(solved[0]! * solved[1]! > 0)) return undefined;
  return solved.reduce((rest, amplitude, row) => rest - amplitude * normal.side[row]!, gram[all * all - 1]!);
}

/** Poles over the carrier, delay in cycles and Qs; the amplitudes follow by linear least squares. */
function projected(trial: Trial, [lower, upper, delay, lowerQ, upperQ]: readonly number[]) {
  const { values, from, to, noise } = trial;
  const columns = [
    [lower!, lowerQ!],
    [upper!, upperQ!],
  ].flatMap(([part, q]) => columnsOf(trial, { part: part!, q: Math.exp(q!), delay: delay!, every: 1 }));
  const size = columns.length + 1;
  const normal = emptyNormal(size);
  const row = new Float64Array(size).fill(1);
  for (let n = 0; n < to - from; n++) {
    for (let c = 0; c < columns.length; c++) row[c] = columns[c]![n]!;
    const value = values[from + n]!;
    if (value - value === 0) observe(normal, row, value);
  }
  const solved = solveNormal(normal)?.solution;
  if (solved === undefined) return undefined;
  const rest = new Float64Array(to - from);
  for (let n = 0; n < rest.length; n++) {
    let modelled = solved[size - 1]!;
    for (let c = 0; c < columns.length; c++) modelled += solved[c]! * columns[c]![n]!;
    const value = values[from + n]!;
    rest[n] = value - value === 0 ? (modelled - value) / Math.sqrt(noise) : 0;
  }
  return { rest, sizes: [solved[0]!, solved[3]!] as const };
}

/** Logarithm of either pole's Q beforehand. */
const usualQ = { mean: Math.log(70), deviation: 0.6 };
const steps = [1e-4, 1e-4, 1e-4, 1e-2, 1e-2];
const refining = 10;

function refine(trial: Trial, { lower, upper, delay }: Candidate): PairStart | undefined {
  const isSensible = ([a, b, , p, q]: readonly number[]) =>
    a! > 0.5 && b! < 1.7 && b! > a! * 1.01 && p! > 1.5 && p! < 8 && q! > 1.5 && q! < 8;
  const known = [usualDelay, usualQ, usualQ];
  const residualsOf = (at: Float64Array) => {
    const rest = isSensible([...at]) ? projected(trial, [...at])?.rest : undefined;
    if (rest === undefined) return Float64Array.of(Number.NaN);
    const all = new Float64Array(rest.length + known.length);
    all.set(rest);
    known.forEach(({ mean, deviation }, n) => {
      all[rest.length + n] = (at[2 + n]! - mean) / deviation;
    });
    return all;
  };
  const start = Float64Array.of(lower, upper, delay, usualQ.mean, usualQ.mean);
  if (!Number.isFinite(residualsOf(start)[0]!)) return undefined;
  const { solution, squares } = levenbergMarquardt({
    start,
    residualsOf,
    jacobianOf: differenceSlopes(residualsOf, steps),
    settled: 1e-3,
    mostIterations: refining,
  });
  return pairOf(trial, solution, squares);
}

function pairOf(trial: Trial, solution: Float64Array, squares: number): PairStart | undefined {
  const [lower = 0, upper = 0, delay = 0, lowerQ = 0, upperQ = 0] = solution;
  const sizes = projected(trial, [...solution])?.sizes;
  const carrier = (2 * Math.PI) / trial.cycle;
  const poles = { lower: lower * carrier, upper: upper * carrier };
  const secondary = sizes === undefined ? undefined : secondaryOf({ ...poles, sizes });
  const found = secondary === undefined ? undefined : pairOfPoles({ ...poles, secondary });
  if (secondary === undefined || found === undefined) return undefined;
  // Both poles share both losses.
  const q = Math.exp((lowerQ + upperQ) / 2);
  return { pair: { ...found, secondary, tankQ: q, secondaryQ: q }, delay, squares };
}
