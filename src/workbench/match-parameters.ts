/** The numbers that a match may move, each with what the drawing leaves open of it. */
import { keyAt } from "../catalogue/keys.ts";
import type { CoilFile } from "../description/coil-file.ts";
import { coilKey } from "../description/coil-keys.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { dimensions } from "../units/dimension.ts";
import type { Farad } from "../units/si.ts";
import { numberAt } from "./coil-path.ts";
import type { Solution } from "./contract.ts";
import { type Point, type ShapeFigure, shapeFigures } from "./match-point.ts";
import { modelUncertainty } from "./model-uncertainty.ts";
import type { Sensitivity } from "./sensitivities.ts";

/** One unknown. Its value is `drawn + sigma·u`; the prior of u is normal with a standard deviation of one. */
export interface Parameter {
  readonly id: string;
  readonly says: string;
  /** In the coil file; all of them move together by the same amount. */
  readonly paths: readonly string[];
  readonly drawn: number;
  readonly sigma: number;
  readonly unit: string;
  /** Change of the logarithm of a figure per unit of the value. */
  readonly logSlopes: ReadonlyMap<ShapeFigure, number>;
  /** What else it moves, from the value less the drawn one. */
  readonly act?: (point: Point, change: number) => void;
}

export type LogSlopes = Parameter["logSlopes"];

export const noSlopes: LogSlopes = new Map();

/** Standard deviations of what no tolerance is written for, SI or parts. Common practice, no source. */
const usual = {
  tap: 0.02,
  scale: 0.015,
  unscaled: 3,
  /** Parts of the capacitance of mode 1. */
  near: 0.08,
  streamer: 0.2,
  nearLoss: 0.3,
  streamerLoss: 1,
  /** Of Q, for what no drawing knows: the former, the base's earth, a lead to the top. */
  q: 0.1,
  delay: 40e-9,
};

/** What every parameter needs to know of the coil. */
export interface Drawn {
  readonly file: CoilFile;
  readonly solution: Solution;
  readonly moved: readonly Sensitivity[];
}

/** The file's own numbers, within their tolerances. */
export function fileParameters(drawn: Drawn): readonly Parameter[] {
  const { file, moved } = drawn;
  const shaped = moved.flatMap(({ path, value }): Parameter[] => {
    const tolerance = file.provenances.get(path)?.tolerance ?? 0;
    const sigma = path === "primary.tap" ? Math.max(tolerance / 2, usual.tap) : tolerance / 2;
    if (!(sigma > 0) || path.startsWith("tank.") || isTopHeight(path)) return [];
    const logSlopes = slopesOf(path, drawn);
    return logSlopes.size === 0 ? [] : [{ ...named(path, file), paths: [path], drawn: value, sigma, logSlopes }];
  });
  const top = topHeight(drawn);
  return [...shaped, ...(top ? [top] : []), ...tankParameters(drawn), ...feedbackParameters(drawn)];
}

/** Change of the logarithm of each figure of the shape per unit of a number of the file. */
export function slopesOf(path: string, { solution, moved }: Drawn): LogSlopes {
  const slopes = moved.find((each) => each.path === path)?.slopes;
  return new Map(
    shapeFigures.flatMap((id) => {
      const slope = slopes?.get(id);
      const value = solution.figures.get(id)?.value;
      return slope === undefined || !value ? [] : [[id, slope / value] as const];
    }),
  );
}

const isTopHeight = (path: string): boolean => /^topload\.\d+\.\w+\.height$/.test(path);

/** Everything on top goes up and down together. */
export function topHeight(drawn: Drawn): Parameter | undefined {
  const { file, solution } = drawn;
  const paths = [...file.provenances.keys()].filter(isTopHeight);
  const [first] = paths;
  const height = first === undefined ? undefined : numberAt(solution.coil, first);
  if (first === undefined || height === undefined) return undefined;
  const logSlopes = new Map<ShapeFigure, number>();
  for (const path of paths) {
    for (const [id, slope] of slopesOf(path, drawn)) logSlopes.set(id, (logSlopes.get(id) ?? 0) + slope);
  }
  const sigma = (file.provenances.get(first)?.tolerance ?? 0) / 2;
  return { id: first, says: "height of the top load", paths, drawn: height, sigma, unit: "m", logSlopes };
}

/** Bank and leads: exact, no slope needed. */
function tankParameters({ file, solution: { coil } }: Drawn): readonly Parameter[] {
  const { tank } = coil;
  if (!tank) return [];
  const moves: readonly [string, (point: Point, change: number) => void][] = [
    ["tank.bank.each", capacitorAct(tank.bank.each)],
    [
      "tank.bank.dissipation",
      (point, change) => {
        point.dissipation = Math.max(0, point.dissipation + change);
      },
    ],
    ["tank.leads.inductance", leadInductanceAct],
    [
      "tank.leads.resistance",
      (point, change) => {
        point.leadResistance = Math.max(0, point.leadResistance + change);
      },
    ],
  ];
  return moves.flatMap(([path, act]) => {
    const value = numberAt(coil, path);
    const sigma = (file.provenances.get(path)?.tolerance ?? 0) / 2;
    if (value === undefined || !(sigma > 0)) return [];
    return [{ ...named(path, file), paths: [path], drawn: value, sigma, logSlopes: noSlopes, act }];
  });
}

export const capacitorAct =
  (each: number) =>
  (point: Point, change: number): void => {
    point.capacitance *= Math.max(0.05, 1 + change / each);
  };

export function leadInductanceAct(point: Point, change: number): void {
  point.leadInductance += change;
}

function feedbackParameters({ file, solution: { coil } }: Drawn): readonly Parameter[] {
  const { feedback } = coil;
  if (!feedback) return [];
  const tolerance = file.provenances.get("feedback.delay")?.tolerance ?? 0;
  return [
    {
      ...named("feedback.delay", file),
      paths: ["feedback.delay"],
      drawn: feedback.delay,
      sigma: Math.max(usual.delay, tolerance / 2),
      unit: "s",
      logSlopes: noSlopes,
      act: delayAct,
    },
  ];
}

export function delayAct(point: Point, change: number): void {
  point.delay = Math.max(0, point.delay + change);
}

/** What the model itself may be off by, and what the instruments are. */
export function modelParameters({ solution }: Drawn, observed: readonly Observed[]): readonly Parameter[] {
  const own = modelUncertainty(solution.coil, solution.figures);
  const model = (id: ShapeFigure, says: string, least = 0, also: readonly ShapeFigure[] = []): Parameter => ({
    id: `model.${id}`,
    says,
    paths: [],
    drawn: 0,
    sigma: Math.max(least, (own.get(id) ?? 0.02) / 2),
    unit: "1",
    logSlopes: new Map([id, ...also].map((each) => [each, 1])),
  });
  const ifDrawn = solution.figures.has("primary.inductance")
    ? [
        // A wrong inductance is a wrong size of the field: the mutual goes with its root, so the coupling stays.
        model("primary.inductance", "the model's inductance of the primary"),
        model("primary.resistanceAc", "the model's resistance of the primary"),
        model("coupling.kMode1", "the model's coupling", 0, ["coupling.k"]),
      ]
    : [];
  const scales = observed.flatMap(({ peaks, scaleError }) => (peaks.length > 0 ? [scaleError ?? usual.unscaled] : []));
  return [
    model("secondary.f1", "the model's f1"),
    model("secondary.energyCapacitance", "the model's capacitance of mode 1"),
    model("secondary.qUnloaded", "the secondary's losses", usual.q),
    ...ifDrawn,
    ...(scales.length > 0 ? [scaleParameter(Math.min(...scales))] : []),
    ...observed.flatMap((each, n) =>
      nearParameters(each, n, solution.figures.get("secondary.energyCapacitance")!.value),
    ),
    ...observed.flatMap(busParameter),
  ];
}

const scaleParameter = (sigma: number): Parameter => ({
  id: "instrument.scale",
  says: "scale of the current channel",
  paths: [],
  drawn: 0,
  sigma: Math.max(usual.scale, sigma),
  unit: "1",
  logSlopes: noSlopes,
  act: (point, change) => {
    point.scale *= Math.exp(change);
  },
});

/** Something near, or a streamer, loads the top in one record alone. */
function nearParameters({ record, state }: Observed, n: number, modeCapacitance: Farad): readonly Parameter[] {
  if (state === "cold" || state === "low") return [];
  const streamer = state === "full";
  return [
    {
      id: `near.${n}.capacitance`,
      says: `capacitance that ${streamer ? "the streamer" : "what stood near"} added in ${record}`,
      paths: [],
      drawn: 0,
      sigma: (streamer ? usual.streamer : usual.near) * modeCapacitance,
      unit: "F",
      logSlopes: noSlopes,
      act: (point, change) => {
        point.records[n]!.added += Math.max(-0.2 * point.shape["secondary.energyCapacitance"], change);
      },
    },
    {
      id: `near.${n}.loss`,
      says: `loss that ${streamer ? "the streamer" : "what stood near"} added in ${record}`,
      paths: [],
      drawn: 0,
      sigma: streamer ? usual.streamerLoss : usual.nearLoss,
      unit: "1",
      logSlopes: noSlopes,
      act: (point, change) => {
        point.records[n]!.qFactor *= Math.exp(change);
      },
    },
  ];
}

function busParameter({ record, bus, peaks }: Observed, n: number): readonly Parameter[] {
  if (!bus || peaks.length === 0) return [];
  return [
    {
      id: `bus.${n}`,
      says: `bus voltage in ${record}`,
      paths: [],
      drawn: 0,
      sigma: bus.error / bus.voltage,
      unit: "1",
      logSlopes: noSlopes,
      act: (point, change) => {
        point.records[n]!.bus *= Math.exp(change);
      },
    },
  ];
}

/** Id, words and unit of a number of the file. */
export function named(path: string, file: CoilFile): { id: string; says: string; unit: string } {
  const dimension = file.provenances.get(path)?.dimension;
  const unit =
    dimension !== undefined && dimension in dimensions ? dimensions[dimension as keyof typeof dimensions].si : "1";
  const says = keyAt(coilKey, path)?.says;
  return { id: path, says: says === undefined ? path : firstClause(says), unit };
}

const firstClause = (says: string): string => says.split(/[;:(]/)[0]!.trim();
