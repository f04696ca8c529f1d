/** The streamer's constants from lengths that somebody saw. */
import type { Edit, Finding } from "../catalogue/finding.ts";
import type { Coil, StreamerConstants } from "../description/coil.ts";
import type { CoilFile } from "../description/coil-file.ts";
import { levenbergMarquardt } from "../numerics/levenberg-marquardt.ts";
import { emptyNormal, observe, solveNormal } from "../numerics/normal-equations.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import { type ReachConstants, reachConstants } from "../stress/index.ts";
import { writeQuantity } from "../units/quantity.ts";
import type { Hertz, Metre, Second, Volt } from "../units/si.ts";
import { study } from "./burst-stage.ts";
import type { Solution } from "./contract.ts";

/** A length of the longest streamer, and how the coil was set while it was seen; the coil's own setting where absent. */
export interface ObservedLength {
  readonly length: Metre;
  /** Half-width that holds 95 %; a tenth of the length where absent. */
  readonly tolerance?: Metre;
  readonly onTime?: Second;
  readonly rate?: Hertz;
  readonly busVoltage?: Volt;
}

/** One constant, before and after. */
export interface FittedConstant {
  readonly id: keyof StreamerConstants;
  readonly says: string;
  readonly unit: string;
  /** Of the table. */
  readonly drawn: number;
  readonly value: number;
  /** Ends of the 90 % interval. */
  readonly low: number;
  readonly high: number;
  /** Of the doubt before, on the scale of proportions, what is left: 1 where the lengths say nothing of it. */
  readonly left: number;
}

export interface LengthSeen {
  readonly observed: Metre;
  /** By the table's constants, and by the fitted ones; 0 where the top does not break out by the model. */
  readonly drawn: Metre;
  readonly fitted: Metre;
  /** What limits the fitted length. */
  readonly bound: "energy" | "voltage" | "cold" | "none";
  /** (ln fitted − ln observed) over what was allowed. */
  readonly sigmas: number;
}

export interface StreamerMatch {
  readonly constants: readonly FittedConstant[];
  readonly lengths: readonly LengthSeen[];
  /** What writes the constants that the lengths tell into the coil file. */
  readonly adopt: readonly Edit[];
  readonly findings: readonly Finding[];
}

/** Scatter of the longest of many strikes about its mean, and what the model leaves out, in proportion. This project's own judgement. */
const scatter = 0.12;
/** Of the length, where nobody says how well it was seen. */
const usualTolerance = 0.1;
/** Part of the doubt before below which a constant is told. */
const told = 0.9;
const ninety = 1.645;
const shortest: Metre = 1e-3;
const step = 0.02;

const constants = [
  { id: "energyPerMetre", key: "energyPerMetre", unit: "J", says: "energy that keeps a metre of channel" },
  { id: "voltagePerMetre", key: "gradient", unit: "V", says: "voltage that holds a metre of channel" },
  { id: "memory", key: "memory", unit: "s", says: "time in which a channel cools to a third" },
] as const satisfies readonly { id: keyof StreamerConstants; key: keyof ReachConstants; unit: string; says: string }[];

/**
 * Fits the channel's constants to lengths, each within its range in the table (docs/burst.md) as a prior.
 *
 * Logarithms of the constants, priors normal with the spread that the table's range has (every proportion alike); residuals are logarithms of
 * length, each allowed its tolerance and the scatter of strikes. The steady train is simulated anew at every point, for the streamer loads it.
 *
 * @param observed  at least one, lengths > 0
 * @throws OutOfDomain  no coil, no length, or a length that is not positive
 * @source channel-growth, levenberg-marquardt
 */
export function matchStreamer({
  file,
  solution,
  observed,
}: {
  file: CoilFile;
  solution: Solution;
  observed: readonly ObservedLength[];
}): StreamerMatch {
  const { coil } = file;
  if (!coil || observed.length === 0 || observed.some(({ length }) => !(length > 0)))
    throw new OutOfDomain("matchStreamer", "needs a coil and lengths above zero");
  const seen = (u: Float64Array) =>
    observed.map((each) => reachAt({ ...coil, streamer: constantsAt(u) }, solution, each));
  const drawn = seen(new Float64Array(constants.length));
  const usable = observed.map((_, n) => drawn[n]!.length > 0);
  const allowed = observed.map(({ length, tolerance = usualTolerance * length }) =>
    Math.hypot(scatter, tolerance / (2 * length)),
  );
  const residuals = (u: Float64Array): Float64Array =>
    Float64Array.from([
      ...seen(u).flatMap(({ length }, n) =>
        usable[n] ? [Math.log(Math.max(length, shortest) / observed[n]!.length) / allowed[n]!] : [],
      ),
      ...u,
    ]);
  const fit = levenbergMarquardt({
    start: new Float64Array(constants.length),
    residualsOf: residuals,
    jacobianOf: (u) => slopesOf(residuals, u),
    settled: 1e-3,
    mostIterations: 12,
  });
  const size = constants.length;
  const normal = emptyNormal(size);
  const jacobian = slopesOf(residuals, fit.solution);
  for (let row = 0; row * size < jacobian.length; row++)
    observe(normal, jacobian.subarray(row * size, (row + 1) * size), 0);
  const inverse = solveNormal(normal)?.inverse;
  const fitted = seen(fit.solution);
  const made = constants.map(({ id, key, unit, says }, n): FittedConstant => {
    const left = inverse ? Math.sqrt(inverse[n * size + n]!) : 1;
    const { taken } = table[key];
    const value = taken * Math.exp(sigmaOf(key) * fit.solution[n]!);
    const factor = Math.exp(ninety * sigmaOf(key) * left);
    return { id, says, unit, drawn: taken, value, low: value / factor, high: value * factor, left };
  });
  return {
    constants: made,
    lengths: observed.map(({ length }, n) => ({
      observed: length,
      drawn: drawn[n]!.length,
      fitted: fitted[n]!.length,
      bound: fitted[n]!.bound,
      sigmas: usable[n] ? Math.log(Math.max(fitted[n]!.length, shortest) / length) / allowed[n]! : 0,
    })),
    adopt: made.filter(({ left }) => left < told).map(editOf),
    findings: usable.flatMap((is, n) => (is ? [] : [notLit(observed[n]!)])),
  };
}

const table = reachConstants();

/** Standard deviation of the logarithm of something that is anywhere between two ends, every proportion alike. */
function sigmaOf(key: keyof ReachConstants): number {
  const { least, greatest } = table[key];
  return Math.log(greatest / least) / Math.sqrt(12);
}

function constantsAt(u: Float64Array): StreamerConstants {
  return Object.fromEntries(constants.map(({ id, key }, n) => [id, table[key].taken * Math.exp(sigmaOf(key) * u[n]!)]));
}

function reachAt(coil: Coil, solution: Solution, { onTime, rate, busVoltage }: ObservedLength) {
  const { figures } = study(coil, solution, {
    ...(onTime === undefined ? {} : { onTime }),
    ...(rate === undefined ? {} : { rate }),
    ...(busVoltage === undefined ? {} : { busVoltage }),
  });
  const value = (id: string): number => figures.get(id)?.value ?? 0;
  const length = value("burst.streamerLength");
  const [energy, voltage] = [value("burst.streamerByEnergy"), value("burst.streamerByVoltage")];
  const bound: LengthSeen["bound"] =
    length === 0 ? "none" : Math.min(energy, voltage) < length ? "cold" : energy < voltage ? "energy" : "voltage";
  return { length, bound };
}

/** Central differences: the lesser of two bounds has a kink. */
function slopesOf(residuals: (u: Float64Array) => Float64Array, u: Float64Array): Float64Array {
  const columns = Array.from(u, (_, k) => {
    const [below, above] = [u.slice(), u.slice()];
    below[k]! -= step;
    above[k]! += step;
    const [from, to] = [residuals(below), residuals(above)];
    return to.map((value, row) => (value - from[row]!) / (2 * step));
  });
  const rows = columns[0]?.length ?? 0;
  const out = new Float64Array(rows * u.length);
  columns.forEach((column, k) => {
    column.forEach((value, row) => {
      out[row * u.length + k] = value;
    });
  });
  return out;
}

const inFile: Readonly<Record<keyof StreamerConstants, { unit: string; scale: number }>> = {
  energyPerMetre: { unit: "J", scale: 1 },
  voltagePerMetre: { unit: "kV", scale: 1e3 },
  memory: { unit: "ms", scale: 1e-3 },
};

function editOf({ id, value, low, high }: FittedConstant): Edit {
  const { unit, scale } = inFile[id];
  const digits = (number: number, count: number): number => scale * Number((number / scale).toPrecision(count));
  // Half of the 90 % interval, widened to the half-width that holds 95 %; never to zero.
  const half = Math.min(0.9 * value, ((high - low) / 2) * (2 / ninety));
  return {
    path: `streamer.${id}`,
    value: writeQuantity({
      value: digits(value, 3),
      unit,
      tolerance: { kind: "absolute", value: digits(half, 2) },
      origin: "measured",
    }),
  };
}

const notLit = ({ length }: ObservedLength): Finding => ({
  rule: "match-length-without-streamer",
  severity: "look",
  path: "",
  what: `a streamer of ${Number(length.toPrecision(3))} m was seen where the predicted burst does not break out; it was left out`,
  expected: "the on-time, the rate and the bus at which it was seen, and a top load that breaks out there",
  evidence: ["topload.breakoutVoltage"],
  remedies: [{ says: "give its setting, as in --on-time 110us --rate 180Hz; draw the breakout point", edits: [] }],
});
