/** Fields around the coil with nobody touching anything, against published reference levels. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import {
  electricField,
  emissionLimit,
  farField,
  farthestOver,
  magneticField,
  quasiStaticTo,
  type ReferenceLevel,
  referenceLevels,
} from "../safety/index.ts";
import type { Metre } from "../units/si.ts";
import type { Solution } from "./contract.ts";
import type { CoilPlace, FieldComparison, StandoffBursts, StandoffFields } from "./standoff-contract.ts";
import { chargesOf, primaryTurnsOf, secondaryTurnsOf } from "./standoff-sources.ts";
import { hardest, operatingFrequency, worst } from "./standoff-worst.ts";

/** Heights of a person [m] at which the field is looked at, in the middle of the gaps between them it is no greater to a few per cent. */
const heights: readonly Metre[] = [0, 0.5, 1, 1.5, 2];
/** Nearest and farthest distance that is looked at [m]. */
const farthest: Metre = 100;
/** After the gates go off the coil rings on: the time that counts is at most twice the on-time. Common practice, no source. */
const ringing = 2;

export interface Fields {
  /** rms inside the burst at a distance from the axis, greatest over a person's height. */
  electric(distance: Metre): number;
  magnetic(distance: Metre): number;
  /** Farthest distance over a level, averaged where the level is. */
  distanceOver(level: ReferenceLevel): Metre;
  readonly levels: readonly ReferenceLevel[];
  readonly frequency: number;
  readonly frequencyFrom: string;
  /** Over 300 m, peak [V/m]. */
  readonly farField: number;
  /** What is left of the field, as rms, where the square is averaged over minutes. */
  readonly averaged: number;
  /** Share of the fields at the low end of their interval. */
  readonly low: { readonly electric: number; readonly magnetic: number };
}

/** Undefined where no burst was computed, or no mode was solved. */
export function fieldsOf({
  coil,
  solution,
  bursts,
  place,
}: {
  coil: Coil;
  solution: Solution;
  bursts: StandoffBursts;
  place: CoilPlace;
}): Fields | undefined {
  const top = worst(bursts, "burst.peakTopVoltage");
  const primary = worst(bursts, "burst.peakPrimaryCurrent");
  const at = operatingFrequency(solution, bursts);
  const perVolt = solution.figures.get("secondary.baseCurrentPerVolt")?.value;
  if (!top || !primary || !at || perVolt === undefined) return undefined;
  const charges = chargesOf(solution, { topVoltage: top.high, height: place.middle });
  if (charges.length === 0) return undefined;
  const turns = [primaryTurnsOf(coil, primary.high), secondaryTurnsOf(coil, solution, perVolt * top.high)];
  const rms = (peak: (height: Metre) => number): number => Math.max(...heights.map(peak)) / Math.SQRT2;
  const electric = remembered((radius) => rms((height) => electricField(charges, { radius, height })));
  const magnetic = remembered((radius) =>
    rms((height) => turns.reduce((sum, each) => sum + magneticField(each, { radius, height }), 0)),
  );
  const averaged = Math.sqrt(Math.min(1, ringing * hardest(bursts).duty));
  const from = 1.1 * Math.max(place.radius, ...turns.flat().map(({ radius }) => radius));
  return {
    electric,
    magnetic,
    averaged,
    frequency: at.frequency,
    frequencyFrom: at.from,
    levels: referenceLevels(at.frequency),
    distanceOver: ({ field, level, averagedOver }) =>
      farthestOver({
        field: field === "electric" ? electric : magnetic,
        level: averagedOver === 0 ? level : level / averaged,
        from,
        to: farthest,
      }),
    farField: farField(charges, { distance: 300, frequency: at.frequency }),
    low: { electric: top.low / top.high, magnetic: Math.min(top.low / top.high, primary.low / primary.high) },
  };
}

/** The same distances are asked for by every level. */
function remembered(field: (distance: Metre) => number): (distance: Metre) => number {
  const known = new Map<Metre, number>();
  return (distance) => {
    const found = known.get(distance) ?? field(distance);
    known.set(distance, found);
    return found;
  };
}

/** As plain data, with the fields at the line [m from the axis]. */
export function fieldsAt(fields: Fields, line: Metre): StandoffFields {
  const { electric, magnetic, levels, frequency, averaged } = fields;
  const [here, there] = [electric(line), magnetic(line)];
  const comparisons = levels.map((level): FieldComparison => {
    const atLine = (level.field === "electric" ? here : there) * (level.averagedOver === 0 ? 1 : averaged);
    return { ...level, atLine, over: atLine > level.level, distance: fields.distanceOver(level) };
  });
  const limit = emissionLimit(frequency);
  return {
    frequency,
    comparisons,
    validTo: quasiStaticTo(frequency),
    ...(limit?.distance === 300
      ? { emission: { distance: 300, field: fields.farField, limit: limit.level, source: "fcc-15-209" as const } }
      : {}),
    course: [0.5, 1, 1.5, 2, 3, 4, 5, 7, 10, 15, 20]
      .filter((distance) => distance > line / 20)
      .flatMap((distance) => {
        const at = { distance, electric: electric(distance), magnetic: magnetic(distance) };
        return Number.isFinite(at.electric + at.magnetic) ? [at] : [];
      }),
  };
}

const topFrom = ["burst.peakTopVoltage", "secondary.terminalCapacitance", "topload"];
const currentFrom = [
  "burst.peakPrimaryCurrent",
  "burst.peakTopVoltage",
  "secondary.baseCurrentPerVolt",
  "primary.turns",
  "secondary.turns",
];

export function fieldFigures(fields: Fields, line: Metre): Figure[] {
  const { electric, magnetic, levels, low, frequencyFrom, frequency } = fields;
  const upper = (id: string, value: number, share: number, parts: Omit<Parameters<typeof figure>[2], "low" | "high">) =>
    figure(id, value, { ...parts, low: share * value, high: value });
  const validTo = quasiStaticTo(frequency);
  const beyond =
    line > validTo ? "the line lies beyond the near field that this holds for: read it as an order of magnitude; " : "";
  const note = `${beyond}upper bound: the earthed primary, walls and people are left out; above a level means assess further, not injury, and below it is no permission`;
  const nerve = (field: "electric" | "magnetic", who: "public" | "occupational") =>
    levels.find((level) => level.field === field && level.who === who && level.guards === "nerve");
  const distances = (["electric", "magnetic"] as const).flatMap((field) =>
    (["public", "occupational"] as const).flatMap((who) => {
      const level = nerve(field, who);
      if (level === undefined) return [];
      const distance = fields.distanceOver(level);
      const share = field === "electric" ? low.electric ** 0.5 : low.magnetic ** 0.5;
      return [
        upper(`standoff.rf.${field}${who === "public" ? "Public" : "Occupational"}`, distance, share, {
          from: [...(field === "electric" ? topFrom : currentFrom), frequencyFrom],
          source: level.source,
          note: distance >= farthest ? "beyond the distances that were looked at" : note,
        }),
      ];
    }),
  );
  return [
    upper("standoff.rf.electricField", electric(line), low.electric, {
      from: ["standoff.audience", ...topFrom],
      source: "charges-and-images",
      note,
    }),
    upper("standoff.rf.magneticField", magnetic(line), low.magnetic, {
      from: ["standoff.audience", ...currentFrom],
      source: "biot-savart",
      note,
    }),
    ...distances,
    upper("standoff.rf.farField", fields.farField, low.electric, {
      from: [...topFrom, frequencyFrom],
      source: "short-source-over-ground",
      note: "a flat conducting floor to 300 m and nothing that screens: an unscreened coil cannot be presumed to meet emission limits",
    }),
  ];
}
