/** Quantities as the coil file writes them: `6.8 nF ± 5 % (datasheet)`. Read into SI, written back in the unit somebody chose. */

import { closestOf } from "./closest.ts";
import { type Dimension, dimensions } from "./dimension.ts";
import { leadingNumber, writeNumber } from "./number.ts";
import { findUnit, fromSiDifference, nearestUnit, toSiDifference, type Unit } from "./unit.ts";
import { diameterOfGauge, gaugeOfDiameter, readGauge, writeGauge } from "./wire-gauge.ts";

export const origins = ["measured", "datasheet", "drawn", "guessed"] as const;
/** Where a number comes from. */
export type Origin = (typeof origins)[number];

/** The half-width that holds 95 %: in SI units, or as a part of the value. */
export type Tolerance =
  | { readonly kind: "absolute"; readonly value: number }
  | { readonly kind: "relative"; readonly value: number };

export interface Quantity {
  /** SI, finite. */
  readonly value: number;
  readonly dimension: Dimension;
  /** As it was written, e.g. `mm`, `AWG`, `` for a bare ratio. */
  readonly unit: string;
  readonly tolerance?: Tolerance;
  readonly origin?: Origin;
  readonly text: string;
}

export interface QuantityProblem {
  readonly code:
    | "empty"
    | "too-long"
    | "no-number"
    | "decimal-comma"
    | "not-finite"
    | "no-unit"
    | "unknown-unit"
    | "wrong-dimension"
    | "bad-tolerance"
    | "unknown-origin";
  /** What was found, one clause. */
  readonly what: string;
  /** What was expected, with an example. */
  readonly expected: string;
  /** Whole texts that would be read, most likely first. Offered, never assumed. */
  readonly suggestions: readonly string[];
}

export type QuantityReading = { readonly quantity: Quantity } | { readonly problem: QuantityProblem };

/** Longer texts are not quantities; the bound keeps the patterns below cheap. */
const longest = 120;
const toleranceMark = /±|\+\s?\/\s?[-\u2212]|\+[-\u2212]/;
const originMark = /\(([^()]*)\)\s*$/;

/**
 * Reads one quantity of a known dimension.
 *
 * number unit [± tolerance] [(origin)]; fractions, `AWG n` for lengths, percentages for ratios, which may also stand bare. A tolerance in
 * `%` is a part of the value, except that of a value itself written in `%`, where it counts in percentage points.
 *
 * @returns the quantity with a finite SI value, or a problem that says what was expected; never throws
 */
export function readQuantity(
  text: string,
  { dimension, example }: { dimension: Dimension; example?: string },
): QuantityReading {
  const { called, example: usualExample } = dimensions[dimension];
  const expected = `${called}, e.g. \`${example ?? usualExample}\``;
  const refuse = (
    code: QuantityProblem["code"],
    what: string,
    suggestions: readonly string[] = [],
    instead = expected,
  ): QuantityReading => ({
    problem: {
      code,
      what,
      expected: instead,
      suggestions: suggestions.filter((s) => "quantity" in readQuantity(s, { dimension })),
    },
  });

  if (text.length > longest) return refuse("too-long", `${text.length} characters are too many for one quantity`);
  const whole = text.trim();
  if (whole === "") return refuse("empty", "nothing is written here");

  const originMatch = originMark.exec(whole);
  const beforeOrigin = originMatch === null ? whole : whole.slice(0, originMatch.index).trimEnd();
  const origin = originMatch === null ? undefined : readOrigin(originMatch[1] ?? "");
  if (originMatch !== null && origin === undefined) {
    const written = (originMatch[1] ?? "").trim();
    const near = closestOf(written.toLowerCase(), origins);
    return refuse(
      "unknown-origin",
      `\`(${written})\` is not an origin`,
      near === undefined ? [] : [`${beforeOrigin} (${near})`],
      "one of (measured), (datasheet), (drawn), (guessed) at the end, or none",
    );
  }

  const mark = toleranceMark.exec(beforeOrigin);
  const main = mark === null ? beforeOrigin : beforeOrigin.slice(0, mark.index).trimEnd();
  const toleranceText = mark === null ? undefined : beforeOrigin.slice(mark.index + mark[0].length).trim();
  const tail = whole.slice(main.length);

  const amount = readAmount(main, dimension);
  if ("problem" in amount) {
    const { code, what, repairs } = amount.problem;
    return refuse(
      code,
      what,
      repairs.map((repair) => repair + tail),
    );
  }
  const { value, unit } = amount;
  if (!Number.isFinite(value)) return refuse("not-finite", `\`${main}\` is not a finite number`);

  let tolerance: Tolerance | undefined;
  if (toleranceText !== undefined) {
    tolerance = readTolerance(toleranceText, { dimension, unit: amount.found });
    if (tolerance === undefined) {
      const end = originMatch === null ? "" : ` ${originMatch[0].trim()}`;
      const bare = leadingNumber(toleranceText);
      const repairs =
        bare !== undefined && bare.length === toleranceText.length ? [unit === "AWG" ? "mm" : unit, "%"] : [];
      const inWhat =
        dimension === "temperature" ? "`± 2 K`" : `\`± 5 %\` or \`± ${dimensions[dimension].example.split(" ±")[0]}\``;
      return refuse(
        "bad-tolerance",
        `\`± ${toleranceText}\` is not a tolerance of ${called}`,
        repairs.map((u) => `${main} ± ${toleranceText} ${u}${end}`),
        `a positive tolerance with its unit, e.g. ${inWhat}`,
      );
    }
  }
  return {
    quantity: {
      value,
      dimension,
      unit,
      text: whole,
      ...(tolerance === undefined ? {} : { tolerance }),
      ...(origin === undefined ? {} : { origin }),
    },
  };
}

/** The half-width in SI units, or undefined where none was written. */
export function absoluteTolerance({ value, tolerance }: Pick<Quantity, "value" | "tolerance">): number | undefined {
  if (tolerance === undefined) return undefined;
  return tolerance.kind === "absolute" ? tolerance.value : Math.abs(value) * tolerance.value;
}

/**
 * The text of a quantity, in canonical spacing: `110 mm ± 0.5 mm (measured)`.
 *
 * @param value  SI
 * @param unit   a spelling that `readQuantity` takes, e.g. `mm`; `AWG` falls back to mm where no gauge has that diameter; `` for a bare ratio
 * @throws RangeError  the unit does not exist, or the value is not finite: a mistake of the caller's
 */
export function writeQuantity({
  value,
  unit,
  tolerance,
  origin,
}: Pick<Quantity, "value" | "unit" | "tolerance" | "origin">): string {
  if (!Number.isFinite(value)) throw new RangeError(`writeQuantity: not a finite number: ${value}`);
  const gauge = unit === "AWG" ? gaugeOfDiameter(value) : undefined;
  const name = unit === "AWG" ? "mm" : unit;
  const found = name === "" ? { factor: 1, divisor: 1, zero: 0 } : findUnit(name);
  if (found === undefined) throw new RangeError(`writeQuantity: no such unit: ${unit}`);
  const parts = [
    gauge === undefined ? join(writeNumber(fromSiDifference(value - found.zero, found)), name) : writeGauge(gauge),
  ];
  if (tolerance?.kind === "absolute")
    parts.push(`± ${join(writeNumber(fromSiDifference(tolerance.value, found)), name === "°C" ? "K" : name)}`);
  if (tolerance?.kind === "relative") parts.push(`± ${writeNumber(tolerance.value * 100)} %`);
  if (origin !== undefined) parts.push(`(${origin})`);
  return parts.join(" ");
}

/**
 * The text of a quantity in canonical spacing, its numbers and unit as somebody wrote them: `6.8nF+/-5%` → `6.8 nF ± 5 %`.
 *
 * @returns undefined where the text is not a quantity of that dimension
 */
export function canonicalQuantity(text: string, dimension: Dimension): string | undefined {
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading) return undefined;
  const { origin } = reading.quantity;
  const whole = text.trim().replace(originMark, "").trim();
  const mark = toleranceMark.exec(whole);
  const main = spaced(mark === null ? whole : whole.slice(0, mark.index));
  const parts = mark === null ? [main] : [main, "±", spaced(whole.slice(mark.index + mark[0].length))];
  return [...parts, ...(origin === undefined ? [] : [`(${origin})`])].join(" ");
}

/** One number and its unit, one space apart; wire gauges and anything else with single spaces. */
function spaced(text: string): string {
  const trimmed = text.trim();
  const gauge = readGauge(trimmed);
  if (gauge !== undefined) return writeGauge(gauge);
  const number = leadingNumber(trimmed);
  if (number === undefined) return trimmed;
  const written = trimmed.slice(0, number.length).replaceAll(/\s+/g, " ");
  return join(written, trimmed.slice(number.length).trim());
}

type Amount =
  | { readonly value: number; readonly unit: string; readonly found: Unit | undefined }
  | {
      readonly problem: {
        readonly code: QuantityProblem["code"];
        readonly what: string;
        readonly repairs: readonly string[];
      };
    };

/** `420 mm` → value and unit. `found` is undefined for a bare ratio. */
function readAmount(main: string, dimension: Dimension): Amount {
  const { called, usual } = dimensions[dimension];
  const gauge = readGauge(main);
  if (gauge !== undefined) {
    if (dimension === "length") return { value: diameterOfGauge(gauge), unit: "AWG", found: findUnit("mm") };
    return { problem: { code: "wrong-dimension", what: `\`${main}\` is a wire gauge, not ${called}`, repairs: [] } };
  }
  const number = leadingNumber(main);
  if (number === undefined) {
    const lone = findUnit(main) === undefined ? "does not begin with a number" : "is a unit without a number";
    return { problem: { code: "no-number", what: `\`${main}\` ${lone}`, repairs: [] } };
  }
  const written = main.slice(0, number.length);
  const rest = main.slice(number.length).trim();
  const comma = /^,(\d+)/.exec(main.slice(number.length));
  if (comma !== null) {
    const after = main.slice(number.length + comma[0].length);
    const repairs = [`${written}.${comma[1] ?? ""}${after}`];
    if (comma[1]?.length === 3 && written.length <= 3) repairs.push(`${written}${comma[1]}${after}`);
    return {
      problem: {
        code: "decimal-comma",
        what: `\`${main}\` has a comma in its number; decimals are written with a point`,
        repairs,
      },
    };
  }
  const hyphened = /^[-\u2212](\d+\s?\/\s?\d+)(.*)$/.exec(rest);
  if (hyphened !== null) {
    const repairs = [`${written} ${hyphened[1]?.replaceAll(" ", "") ?? ""}${hyphened[2] ?? ""}`];
    return {
      problem: { code: "unknown-unit", what: `\`${main}\` joins a whole number and a fraction with a hyphen`, repairs },
    };
  }
  if (rest === "") {
    if (dimension === "ratio") return { value: number.value, unit: "", found: undefined };
    return { problem: { code: "no-unit", what: `\`${main}\` has no unit`, repairs: [join(written, usual)] } };
  }
  const unit = findUnit(rest);
  if (unit === undefined) {
    const near = /^(mils?|thou)$/i.test(rest) ? undefined : nearestUnit(rest, dimension);
    const repairs = near === undefined ? [] : [join(written, near)];
    if (/^(mils?|thou)$/i.test(rest) && dimension === "length")
      repairs.push(join(writeNumber(number.value / 1000), "in"));
    return { problem: { code: "unknown-unit", what: `\`${rest}\` is not a unit known here`, repairs } };
  }
  if (unit.dimension !== dimension) {
    const near = nearestUnit(rest, dimension);
    const what = `\`${main}\` is ${dimensions[unit.dimension].called}, not ${called}`;
    return { problem: { code: "wrong-dimension", what, repairs: near === undefined ? [] : [join(written, near)] } };
  }
  return { value: unit.zero + toSiDifference(number.value, unit), unit: rest, found: unit };
}

function readTolerance(
  text: string,
  { dimension, unit }: { dimension: Dimension; unit: Unit | undefined },
): Tolerance | undefined {
  const number = leadingNumber(text);
  if (number === undefined || !Number.isFinite(number.value) || number.value < 0) return undefined;
  const rest = text.slice(number.length).trim();
  if (rest === "")
    return dimension === "ratio" && unit === undefined ? { kind: "absolute", value: number.value } : undefined;
  const inUnit = findUnit(rest);
  if (inUnit === undefined) return undefined;
  if (inUnit.dimension === "ratio" && (dimension !== "ratio" || unit === undefined)) {
    // A part of an absolute temperature is never what was meant.
    return dimension === "temperature" ? undefined : { kind: "relative", value: toSiDifference(number.value, inUnit) };
  }
  const value = toSiDifference(number.value, inUnit);
  return inUnit.dimension === dimension && Number.isFinite(value) ? { kind: "absolute", value } : undefined;
}

function readOrigin(text: string): Origin | undefined {
  const word = text.trim();
  return origins.find((origin) => origin === word);
}

/** `0°` without a space, all others with one. */
function join(number: string, unit: string): string {
  return unit === "" ? number : unit === "°" ? `${number}°` : `${number} ${unit}`;
}
