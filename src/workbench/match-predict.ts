/** What the records should show for given parameters: residuals of the fit and their slopes. */
import type { BurstNetwork } from "../circuit/network.ts";
import { coupledPoles } from "../fields/handbook/coupled-poles.ts";
import { type DampedTone, dampedPoles } from "../matching/fit/damped-poles.ts";
import type { Observed, Reading } from "../matching/fit/observed.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Second } from "../units/si.ts";
import { type BurstSeen, burstSeen } from "./match-burst.ts";
import type { Parameter } from "./match-parameters.ts";
import {
  type BurstInput,
  burstInputOf,
  type Loops,
  loopsOf,
  type Point,
  type ShapeFigure,
  shapeFigures,
} from "./match-point.ts";

/** What stays of a prediction's error when every parameter is right, in parts. This project's own judgement, docs/bench.md. */
const floor = {
  frequency: 5e-4,
  tankQ: 0.12,
  /** Through a bridge: its knees make the loss depend on a current that the ring-down does not show. */
  bridgedQ: 0.6,
  freeQ: 0.03,
  carrier: 6e-3,
  slipping: 0.015,
  loaded: 0.015,
  /** Of a cycle, at both ends of a drive together: a mean over few cycles depends on how they are counted. */
  ends: 0.08,
  peak: 0.015,
  /** Peaks after the streamer may have begun. */
  loadedPeak: 0.2,
  /** Of a bridge that stops the current: what little flows hangs on snubbers and gates that no drawing has. */
  idlePeak: 0.25,
};
/** A residual where something is there in the record and not in the prediction, or the other way round. */
const absent = 8;
/** Part of the time to breakout up to which the top counts as unloaded. */
const unloaded = 0.85;

/** From where the parameters move: the coil as drawn, or with one thing changed that is or is not. */
export interface Base {
  point(): Point;
  /** Poles with all modes over those of two loops, as drawn. */
  readonly poleFactor: { readonly lower: number; readonly upper: number };
  readonly network: BurstNetwork | undefined;
  readonly breakoutTime: Second;
  /** Added to the logarithm of each figure: what the slopes missed at the last point that was solved in full. */
  readonly offset: ReadonlyMap<ShapeFigure, number>;
}

/** Which lines of the coil the tones of a record are. */
export type Lines = readonly ("lower" | "upper" | "f1" | "none")[];

export interface Seen {
  readonly says: string;
  readonly measured: number;
  readonly predicted: number;
  readonly unit: string;
  readonly residual: number;
}

export function pointAt(base: Base, parameters: readonly Parameter[], u: Float64Array): Point {
  const point = base.point();
  const logs = new Map(base.offset);
  parameters.forEach(({ sigma, logSlopes }, n) => {
    for (const [id, slope] of logSlopes) logs.set(id, (logs.get(id) ?? 0) + slope * sigma * u[n]!);
  });
  for (const id of shapeFigures) point.shape[id] *= Math.exp(logs.get(id) ?? 0);
  parameters.forEach(({ act, sigma }, n) => {
    act?.(point, sigma * u[n]!);
  });
  return point;
}

/** Tank and secondary together, and the secondary with the primary open, in one record. */
export function linesOf(
  loops: Loops,
  { poleFactor }: Pick<Base, "poleFactor">,
): Record<"lower" | "upper" | "f1", DampedTone> {
  const f1 = { frequency: loops.f1, q: loops.q };
  if (!Number.isFinite(loops.tankFrequency)) return { lower: f1, upper: f1, f1 };
  const { lower, upper } = dampedPoles({
    first: { frequency: loops.tankFrequency, q: loops.tankQ },
    second: f1,
    coupling: loops.coupling,
  });
  const times = (tone: DampedTone, factor: number) => ({ frequency: tone.frequency * factor, q: tone.q });
  return { lower: times(lower, poleFactor.lower), upper: times(upper, poleFactor.upper), f1 };
}

/** Without loss, as the drawn figures are. */
export function polesWithoutLoss(
  loops: Loops,
  { poleFactor }: Pick<Base, "poleFactor">,
): { lower: number; upper: number } {
  const { lower, upper } = coupledPoles({ first: loops.tankFrequency, second: loops.f1, coupling: loops.coupling });
  return { lower: lower * poleFactor.lower, upper: upper * poleFactor.upper };
}

/** How much nearer than f1 a pole must be, and how far f1 must be off, for a tone that rings alone to be that pole. */
const poleInstead = { nearer: 3, apart: 0.01 };
/** Two tones nearer to each other than this part of the drawn coupling are no poles of these two loops. */
const closest = 0.5;

/**
 * Which lines of the coil the tones are. Two tones are the poles. Behind a bridge that is off the primary soon carries no current, so a tone
 * alone is f1, unless a pole fits far better.
 */
export function assignedLines(base: Base, point: Point, { tones }: Observed, record: number): Lines {
  const [first, second] = tones;
  if (first === undefined) return [];
  const loops = loopsOf(point, record);
  const lines = linesOf(loops, base);
  const far = (line: "lower" | "upper" | "f1", tone = first): number =>
    Math.abs(Math.log(tone.frequency.value / lines[line].frequency));
  if (second !== undefined) {
    // However tank and secondary are tuned, their poles lie at least k apart.
    const apart = Math.log(second.frequency.value / first.frequency.value);
    if (!(apart < closest * loops.coupling)) return ["lower", "upper"];
    const nearer = far("f1", first) < far("f1", second) ? first : second;
    return tones.map((tone) => (tone === nearer && far("f1", tone) < poleInstead.apart ? "f1" : "none"));
  }
  const pole = far("lower") < far("upper") ? "lower" : "upper";
  return far("f1") > poleInstead.apart && far("f1") > poleInstead.nearer * far(pole) ? [pole] : ["f1"];
}

const inLog = (measured: Reading, predicted: number, least: number): number =>
  Math.log(predicted / measured.value) / Math.hypot(measured.error / measured.value, least);

/** Everything of one record that needs no burst. */
export function tonesSeen(base: Base, point: Point, observed: Observed, record: number, lines: Lines): Seen[] {
  const all = linesOf(loopsOf(point, record), base);
  const ringing = observed.tones.flatMap((tone, n): Seen[] => {
    const line = lines[n] ?? "none";
    if (line === "none") return [];
    const predicted = all[line];
    const name = line === "f1" ? "f1, ringing alone" : `${line} pole`;
    const { frequency, q } = tone;
    return [
      {
        says: name,
        measured: frequency.value,
        predicted: predicted.frequency,
        unit: "Hz",
        residual: clipped(inLog(frequency, predicted.frequency, floor.frequency), farthestTone),
      },
      ...(q === undefined
        ? []
        : [
            {
              says: `Q of ${name}`,
              measured: q.value,
              predicted: predicted.q,
              unit: "1",
              residual: clipped(
                inLog(q, predicted.q, line === "f1" ? floor.freeQ : base.network ? floor.bridgedQ : floor.tankQ),
                farthestTone,
              ),
            },
          ]),
    ];
  });
  return [...ringing, ...drivenSeen(all, observed)];
}

/** What the driven current shows: both poles, and f1 where they cancel. */
function drivenSeen(all: ReturnType<typeof linesOf>, { driven }: Observed): Seen[] {
  if (driven === undefined) return [];
  const rows = [
    ["lower pole, driven", driven.lower, all.lower.frequency],
    ["upper pole, driven", driven.upper, all.upper.frequency],
    ["f1, driven", driven.secondary, all.f1.frequency],
  ] as const;
  return rows.flatMap(([says, measured, predicted]): Seen[] =>
    measured === undefined
      ? []
      : [
          {
            says,
            measured: measured.value,
            predicted,
            unit: "Hz",
            residual: clipped(inLog(measured, predicted, floor.frequency), farthestTone),
          },
        ],
  );
}

/** Peaks and carrier of one record. */
export function burstResiduals(base: Base, burst: BurstSeen, observed: Observed): Seen[] {
  const greatest = Math.max(0, ...observed.peaks.map(({ current }) => current));
  const full = observed.state === "full";
  const peaks = observed.peaks.map(({ current, error, time }, n): Seen => {
    const predicted = burst.peaks[n] ?? 0;
    const loaded = full && time > unloaded * base.breakoutTime;
    const share = burst.idle ? floor.idlePeak : loaded ? floor.loadedPeak : floor.peak;
    const allowed = Math.hypot(error, share * greatest);
    return {
      says: `half-cycle ${n + 1}`,
      measured: current,
      predicted,
      unit: "A",
      residual: (predicted - current) / allowed,
    };
  });
  const { carrier } = observed;
  if (carrier === undefined || observed.onTime === undefined) return peaks;
  // The current of a bridge that stops it has no carrier; its peaks have told.
  if (burst.idle && peaks.length > 0 && observed.carrierFrom !== "loop") return peaks;
  const predicted = burst.carrier;
  return [
    ...peaks,
    {
      says: "carrier",
      measured: carrier.value,
      predicted: predicted ?? 0,
      unit: "Hz",
      residual: predicted === undefined ? absent : clipped(inLog(carrier, predicted, carrierFloor(observed))),
    },
  ];
}

function carrierFloor({ state, carrierFrom, driveKnown, carrier, onTime }: Observed): number {
  const least =
    state === "full" || !driveKnown ? floor.loaded : carrierFrom === "loop" ? floor.slipping : floor.carrier;
  return Math.hypot(least, floor.ends / ((carrier?.value ?? 0) * (onTime ?? 0)));
}

/** Standard deviations by which a carrier is wrong at most, and a tone: a drawing may be some tens off, a tone that is none far more. */
const [mostWrong, farthestTone] = [12, 60];

/** A carrier on the other pole, or a tone that is none of the coil's, is wrong, and no more wrong for being farther off. */
const clipped = (residual: number, most = mostWrong): number => most * Math.tanh(residual / most);

const hasBurst = ({ peaks, carrier, onTime }: Observed): boolean =>
  peaks.length > 0 || (carrier !== undefined && onTime !== undefined);

export interface Problem {
  readonly base: Base;
  readonly parameters: readonly Parameter[];
  readonly observed: readonly Observed[];
  readonly lines: readonly Lines[];
}

/** All that the records show, record by record. */
export function seenAt(problem: Problem, u: Float64Array): readonly (readonly Seen[])[] {
  const { base, parameters, observed, lines } = problem;
  const point = pointAt(base, parameters, u);
  return observed.map((each, n) => [
    ...tonesSeen(base, point, each, n, lines[n]!),
    ...(base.network && hasBurst(each)
      ? burstResiduals(base, burstSeen(base.network, burstInputOf(point, n), each), each)
      : []),
  ]);
}

/** Residuals of the records, then one a parameter: its distance from what is drawn. All NaN where the circuit cannot be. */
export function residualsAt(problem: Problem, u: Float64Array): Float64Array {
  try {
    return Float64Array.from([...seenAt(problem, u).flatMap((record) => record.map(({ residual }) => residual)), ...u]);
  } catch (error) {
    if (error instanceof OutOfDomain) return new Float64Array(1).fill(Number.NaN);
    throw error;
  }
}

/** Relative steps of the circuit values, and steps of the parameters in their own standard deviations. */
const [circuitStep, parameterStep] = [2e-4, 1e-3];

/**
 * Slopes of the residuals, [residuals × parameters]. A burst is run once for each circuit value that moves it, not once for each parameter.
 */
export function jacobianAt(problem: Problem, u: Float64Array): Float64Array {
  const { base, parameters, observed, lines } = problem;
  const size = parameters.length;
  const point = pointAt(base, parameters, u);
  const stepped = parameters.map((_, n) => {
    const moved = u.slice();
    moved[n]! += parameterStep;
    return pointAt(base, parameters, moved);
  });
  const rows: Float64Array[] = [];
  observed.forEach((each, n) => {
    const tones = (at: Point) => tonesSeen(base, at, each, n, lines[n]!).map(({ residual }) => residual);
    const now = tones(point);
    const then = stepped.map(tones);
    now.forEach((residual, row) => {
      rows.push(Float64Array.from(then, (values) => (values[row]! - residual) / parameterStep));
    });
    if (base.network && hasBurst(each))
      rows.push(...burstRows({ base, network: base.network, each, n, point, stepped }));
  });
  parameters.forEach((_, n) => {
    const row = new Float64Array(size);
    row[n] = 1;
    rows.push(row);
  });
  const jacobian = new Float64Array(rows.length * size);
  rows.forEach((row, at) => {
    jacobian.set(row, at * size);
  });
  return jacobian;
}

function burstRows({
  base,
  network,
  each,
  n,
  point,
  stepped,
}: {
  base: Base;
  network: BurstNetwork;
  each: Observed;
  n: number;
  point: Point;
  stepped: readonly Point[];
}): Float64Array[] {
  const values = (input: BurstInput) =>
    burstResiduals(base, burstSeen(network, input, each), each).map(({ residual }) => residual);
  const input = burstInputOf(point, n);
  const now = values(input);
  const there = circuitValues(input);
  const slopes = there.map((value, c) => {
    const step = circuitStep * (value === 0 ? 1e-6 : value);
    const moved = values(withCircuitValue(input, c, value + step));
    return moved.map((residual, row) => (residual - now[row]!) / step);
  });
  const changes = stepped.map((at) => {
    const then = circuitValues(burstInputOf(at, n));
    return there.map((value, c) => (then[c]! - value) / parameterStep);
  });
  return now.map((_, row) =>
    Float64Array.from(changes, (change) => change.reduce((sum, by, c) => sum + by * slopes[c]![row]!, 0)),
  );
}

const loopKeys = [
  "tankInductance",
  "tankResistance",
  "capacitance",
  "f1",
  "energyInductance",
  "energyCapacitance",
  "q",
  "mutual",
] as const;
const inputKeys = ["bus", "scale", "delay", "lead"] as const;

function circuitValues(input: BurstInput): readonly number[] {
  return [...loopKeys.map((key) => input.loops[key]), ...inputKeys.map((key) => input[key])];
}

function withCircuitValue(input: BurstInput, c: number, value: number): BurstInput {
  const loop = loopKeys[c];
  if (loop !== undefined) return { ...input, loops: { ...input.loops, [loop]: value } };
  return { ...input, [inputKeys[c - loopKeys.length]!]: value };
}
