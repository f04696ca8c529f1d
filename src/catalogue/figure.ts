/** A figure is never a bare number: id, value, unit, interval, what it came from and the source of the formula travel together. */
import { OutOfDomain } from "./errors.ts";
import { quantities } from "./quantities.ts";
import { type SourceKey, sources } from "./sources.ts";

/** A handbook formula computed beside the solution. */
export interface CrossCheck {
  /** Name of the formula, e.g. `Nagaoka current sheet`. */
  readonly name: string;
  readonly value: number;
  /** Where the formula may be trusted, in words. */
  readonly validity: string;
  /** True where this coil is inside that range. */
  readonly valid: boolean;
  readonly source: string;
}

export interface Figure {
  readonly id: string;
  /** In the SI unit that the catalogue gives for the id. Always finite. */
  readonly value: number;
  readonly unit: string;
  /** The 90 % interval where it was computed. */
  readonly low?: number;
  readonly high?: number;
  /** Ids of figures and dotted paths of the coil file that it was computed from. */
  readonly from: readonly string[];
  /** Key into `sources`. */
  readonly source: string;
  readonly crossChecks: readonly CrossCheck[];
  /** A caveat that belongs beside the number. */
  readonly note?: string;
}

/** All figures of one solve, by id, in the order of the catalogue. */
export type Figures = ReadonlyMap<string, Figure>;

export interface FigureParts {
  /** Ids of figures and dotted paths of the coil file that it was computed from. */
  readonly from: readonly string[];
  readonly source: SourceKey;
  readonly crossChecks?: readonly CrossCheck[];
  readonly note?: string;
  /** The 90 % interval, both ends or neither. */
  readonly low?: number;
  readonly high?: number;
}

/**
 * A figure of the catalogue: the value with its unit, what it came from and its source.
 *
 *   figure("tank.frequency", 227960, { from: ["tank.capacitance", "tank.inductance"], source: "lc-resonance" })
 *
 * @param id     an id of `quantities`
 * @param value  in that quantity's SI unit
 * @throws OutOfDomain  the id or a source is unknown, the value or an end of the interval is not finite, or the interval is upside down
 */
export function figure(id: string, value: number, parts: FigureParts): Figure {
  const quantity = quantities.get(id);
  if (!quantity) throw new OutOfDomain("figure", `no quantity has the id ${id}`);
  if (!Number.isFinite(value)) throw new OutOfDomain("figure", `${id} must be finite, got ${value} ${quantity.unit}`);
  for (const key of [parts.source, ...(parts.crossChecks ?? []).map((check) => check.source)]) {
    if (!sources.has(key)) throw new OutOfDomain("figure", `${id} names the unknown source ${key}`);
  }
  const { low, high } = parts;
  if ((low === undefined) !== (high === undefined) || !((low ?? value) <= value && value <= (high ?? value))) {
    throw new OutOfDomain("figure", `${id} needs low ≤ value ≤ high, got ${low} ≤ ${value} ≤ ${high}`);
  }
  return {
    id,
    value,
    unit: quantity.unit,
    from: parts.from,
    source: parts.source,
    crossChecks: parts.crossChecks ?? [],
    ...(low === undefined ? {} : { low }),
    ...(high === undefined ? {} : { high }),
    ...(parts.note === undefined ? {} : { note: parts.note }),
  };
}
