/** The coil as the records see it: a handful of circuit values, moved by the parameters of a match. */
import type { Coil } from "../description/coil.ts";
import type { Farad, Henry, Hertz, Ohm, Ratio, Second, Volt } from "../units/si.ts";
import type { Solution } from "./contract.ts";

/** Figures that shape and room move; everything else follows from them and from the tank. */
export const shapeFigures = [
  "secondary.f1",
  "secondary.energyInductance",
  "secondary.energyCapacitance",
  "secondary.qUnloaded",
  "secondary.inductance",
  "primary.inductance",
  "primary.resistanceAc",
  "coupling.k",
  "coupling.kMode1",
] as const;
export type ShapeFigure = (typeof shapeFigures)[number];

/** Per record: what stood near, and the bus. */
export interface RecordPoint {
  added: Farad;
  qFactor: Ratio;
  bus: Volt;
  /** At which the bridge is driven, where it does not follow what the coil senses. */
  fixedFrequency?: Hertz;
}

/** Moved in place while a point is made. */
export interface Point {
  readonly shape: Record<ShapeFigure, number>;
  capacitance: Farad;
  leadInductance: Henry;
  leadResistance: Ohm;
  dissipation: Ratio;
  delay: Second;
  lead: Second;
  /** What the current channels show over what flows. */
  scale: Ratio;
  busFactor: Ratio;
  /** Of a shorted turn, over the loss of one turn of the winding's own wire. */
  shortedLoss: Ratio;
  reversed: boolean;
  readonly records: RecordPoint[];
}

/** The coil as it was solved. @param buses of each record [V] */
export function pointOf(coil: Coil, { figures }: Solution, buses: readonly Volt[]): Point {
  const shape = Object.fromEntries(shapeFigures.map((id) => [id, figures.get(id)?.value ?? Number.NaN])) as Record<
    ShapeFigure,
    number
  >;
  const { tank, feedback } = coil;
  return {
    shape,
    capacitance: figures.get("tank.capacitance")?.value ?? Number.NaN,
    leadInductance: tank?.leads.inductance ?? 0,
    leadResistance: tank?.leads.resistance ?? 0,
    dissipation: tank?.bank.dissipation ?? 0,
    delay: feedback?.delay ?? 0,
    lead: feedback?.lead ?? 0,
    scale: 1,
    busFactor: 1,
    shortedLoss: 1,
    reversed: false,
    records: buses.map((bus) => ({ added: 0, qFactor: 1, bus })),
  };
}

/** The two loops, tank and mode 1, in one record. */
export interface Loops {
  readonly tankInductance: Henry;
  readonly tankFrequency: Hertz;
  readonly tankResistance: Ohm;
  readonly tankQ: Ratio;
  readonly capacitance: Farad;
  readonly f1: Hertz;
  readonly energyInductance: Henry;
  readonly energyCapacitance: Farad;
  readonly q: Ratio;
  /** To mode 1, per ampere at the base. */
  readonly mutual: Henry;
  /** Between the loops, leads counted. */
  readonly coupling: Ratio;
}

/** @param record  which; undefined for the coil with nothing near it */
export function loopsOf(point: Point, record?: number): Loops {
  const { shape, capacitance } = point;
  const near = record === undefined ? undefined : point.records[record];
  const added = near?.added ?? 0;
  const energyInductance = shape["secondary.energyInductance"];
  const drawnCapacitance = shape["secondary.energyCapacitance"];
  const energyCapacitance = drawnCapacitance + added;
  const primary = shape["primary.inductance"];
  const tankInductance = primary + point.leadInductance;
  const tankFrequency = 1 / (2 * Math.PI * Math.sqrt(tankInductance * capacitance));
  const tankResistance =
    shape["primary.resistanceAc"] +
    point.leadResistance +
    point.dissipation / (2 * Math.PI * tankFrequency * capacitance);
  const mutual = shape["coupling.kMode1"] * Math.sqrt(primary * energyInductance);
  return {
    tankInductance,
    tankFrequency,
    tankResistance,
    tankQ: (2 * Math.PI * tankFrequency * tankInductance) / tankResistance,
    capacitance,
    f1: shape["secondary.f1"] * Math.sqrt(drawnCapacitance / energyCapacitance),
    energyInductance,
    energyCapacitance,
    q: shape["secondary.qUnloaded"] * (near?.qFactor ?? 1),
    mutual,
    coupling: mutual / Math.sqrt(tankInductance * energyInductance),
  };
}

/** What a burst depends on. */
export interface BurstInput {
  readonly loops: Loops;
  readonly bus: Volt;
  readonly scale: Ratio;
  readonly delay: Second;
  readonly lead: Second;
  readonly reversed: boolean;
  readonly fixedFrequency?: Hertz;
}

export function burstInputOf(point: Point, record: number): BurstInput {
  const { bus, fixedFrequency } = point.records[record]!;
  return {
    loops: loopsOf(point, record),
    bus: bus * point.busFactor,
    scale: point.scale,
    delay: point.delay,
    lead: point.lead,
    reversed: point.reversed,
    ...(fixedFrequency === undefined ? {} : { fixedFrequency }),
  };
}
