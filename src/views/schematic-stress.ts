/** How near each part of the driver comes to its limit, and which figures and findings belong to it. */
import type { Figures } from "../catalogue/figure.ts";
import type { Finding } from "../catalogue/finding.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import { formatQuantity } from "../units/format.ts";
import type { SchematicPart } from "./schematic-data.ts";

/** A figure held against the limit that the file gives. */
export interface Stress {
  readonly part: SchematicPart;
  /** What is held against what, e.g. `peak current of its pulse rating`. */
  readonly says: string;
  /** A rating that a part may not pass, or a setting that acts when it is reached. */
  readonly kind: "rating" | "setting";
  /** Value over limit. */
  readonly share: number;
  /** Value and limit as they are read. */
  readonly text: string;
}

interface Held {
  readonly part: SchematicPart;
  readonly says: string;
  readonly figure: string;
  readonly limit: number | undefined;
  readonly kind?: "setting";
  /** From which both count; 0 where absent. */
  readonly zero?: number;
}

const kelvinZero = 273.15;

function heldOf({ supply, bridge, tank, feedback }: Coil): Held[] {
  const device = bridge?.switch;
  const ambient = bridge ? bridge.heatsink.ambient - kelvinZero : 0;
  return [
    { part: "fuse", says: "effective mains current of the fuse", figure: "mains.currentRms", limit: supply?.fuse },
    {
      part: "capacitors",
      says: "voltage of one, mains 10 % high, of its rating",
      figure: "bus.voltageEach",
      limit: supply?.capacitors.voltage,
    },
    {
      part: "switches",
      says: "peak current of the pulse rating",
      figure: "burst.peakPrimaryCurrent",
      limit: device?.pulse,
    },
    {
      part: "switches",
      says: "bus, mains 10 % high, of the voltage rating",
      figure: "bus.peakVoltage",
      limit: device?.voltage,
    },
    {
      part: "switches",
      says: "junction's rise over ambient of the rise it may have",
      figure: "switch.junctionPeak",
      limit: device && device.junctionMax - kelvinZero,
      zero: ambient,
    },
    { part: "tank", says: "peak voltage of one of its rating", figure: "bank.voltageEach", limit: tank?.bank.voltage },
    {
      part: "gate",
      says: "flux in the first half-cycle of the core's limit",
      figure: "gate.transformer.flux",
      limit: bridge?.gate.transformer?.fluxMax,
    },
    {
      part: "driver",
      says: "peak primary current of the overcurrent setting",
      figure: "burst.peakPrimaryCurrent",
      limit: feedback?.overcurrent,
      kind: "setting",
    },
    {
      part: "control",
      says: "load of the transformer's current",
      figure: "control.load",
      limit: supply?.control?.current,
    },
  ];
}

/** Every figure that can be held against a limit of the file. */
export function stresses(coil: Coil, figures: Figures): Stress[] {
  return heldOf(coil).flatMap(({ part, says, figure: id, limit, zero = 0, kind = "rating" as const }): Stress[] => {
    const found = figures.get(id);
    if (found === undefined || limit === undefined || !(limit > zero)) return [];
    const text = (value: number) => formatQuantity(value, found.unit, { digits: 3, trim: true });
    return [
      {
        part,
        says,
        kind,
        share: (found.value - zero) / (limit - zero),
        text: `${text(found.value)} of ${text(limit)}`,
      },
    ];
  });
}

/** The word beside a bar, so that no colour is needed. None of them is a permission. */
export function stressWord({ share, kind }: Pick<Stress, "share" | "kind">): "over" | "trips" | "near" | "below" {
  if (share >= 1) return kind === "setting" ? "trips" : "over";
  return share > 0.8 ? "near" : "below";
}

/** The same as it is read. */
export function limitWords(stress: Pick<Stress, "share" | "kind">): string {
  const word = stressWord(stress);
  return word === "trips" ? "the trip acts" : `${word} the ${stress.kind === "setting" ? "setting" : "limit"}`;
}

/** Beginnings of figures' ids and of paths, most special first. */
const belongings: readonly {
  readonly part: SchematicPart;
  readonly figures: readonly string[];
  readonly paths: readonly string[];
}[] = [
  { part: "inrush", figures: ["mains.inrush"], paths: ["supply.inrush"] },
  { part: "fuse", figures: ["mains.currentRms"], paths: ["supply.fuse"] },
  { part: "bleeder", figures: ["bus.discharge", "bus.bleeder"], paths: ["supply.capacitors.bleeder"] },
  { part: "capacitors", figures: ["bus."], paths: ["supply.capacitors"] },
  { part: "control", figures: ["control.trough", "control.load", "control.rail"], paths: ["supply.control"] },
  { part: "rectifier", figures: [], paths: ["supply.rectifier"] },
  { part: "mains", figures: ["mains."], paths: ["supply"] },
  { part: "gate", figures: ["gate."], paths: ["bridge.gate"] },
  { part: "switches", figures: ["switch."], paths: ["bridge"] },
  { part: "sense", figures: ["feedback.burden", "feedback.trip"], paths: ["feedback.transformer", "feedback.sense"] },
  { part: "driver", figures: ["feedback.", "control.link"], paths: ["feedback", "interrupter"] },
  { part: "tank", figures: ["bank.", "burst.peakTankVoltage"], paths: ["tank"] },
  { part: "primary", figures: ["primary.heat", "burst.peakPrimaryCurrent", "burst.rms"], paths: ["primary"] },
  { part: "streamer", figures: ["burst.streamer", "burst.breakout"], paths: ["topload"] },
  {
    part: "secondary",
    figures: ["secondary.heat", "winding.turnVoltage", "winding.peakField", "burst.peakTop"],
    paths: ["secondary"],
  },
];

const begins = (text: string, starts: readonly string[]) => starts.some((start) => text.startsWith(start));

/** Part of the diagram that a figure is shown at. */
export const partOfFigure = (id: string): SchematicPart | undefined =>
  belongings.find(({ figures }) => begins(id, figures))?.part;

/** Part of the diagram that a finding is about. */
export const partOfFinding = ({ path }: Pick<Finding, "path">): SchematicPart | undefined =>
  belongings.find(({ paths }) => paths.some((start) => path === start || path.startsWith(`${start}.`)))?.part;

/** Name of a figure under its group, as the diagram's lists show it. */
export const figureName = (id: string) => {
  const quantity = quantities.get(id);
  return quantity ? `${quantity.group}, ${quantity.name}` : id;
};
