/** What a walk writes down on its way: findings, places, and where each number came from. */
import type { Finding, Place, Remedy } from "../../catalogue/finding.ts";
import type { QuantityKey } from "../../catalogue/keys.ts";
import type { Provenance } from "../../description/provenance.ts";
import { defaultTolerance } from "../../description/tolerances.ts";
import { absoluteTolerance, type Origin, type Quantity } from "../../units/quantity.ts";
import { problem } from "./problem.ts";
import type { Source } from "./source.ts";

/** From offset to offset in the text. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Stands for a value that could not be read; a finding says why. */
export const invalid = Symbol("invalid");
export type Invalid = typeof invalid;

/** A problem before it has a place. */
export interface Refusal {
  readonly rule: string;
  readonly what: string;
  readonly expected: string;
  readonly remedies?: readonly Remedy[];
}

/** Enough to work through; a text with more is not a coil file with mistakes in it. */
const mostFindings = 100;

export class Notes {
  readonly findings: Finding[] = [];
  readonly provenances = new Map<string, Provenance>();
  readonly places = new Map<string, Place>();
  private readonly source: Source;

  constructor(source: Source) {
    this.source = source;
  }

  /** True once no further finding is kept: what only makes findings can be left out. */
  get full(): boolean {
    return this.findings.length >= mostFindings;
  }

  /** Remembers where the key or value of `path` stands; findings and defaults below it point there. */
  mark(path: string, span: Span): void {
    this.places.set(path, this.place(path, span));
  }

  refuse(path: string, span: Span, refusal: Refusal): Invalid {
    if (!this.full) this.findings.push(problem({ ...refusal, path, place: this.place(path, span) }));
    return invalid;
  }

  /** A quantity that is written at `span`. */
  quantity(path: string, { key, quantity, span }: { key: QuantityKey; quantity: Quantity; span: Span }): void {
    this.provenances.set(path, {
      ...originOf(key, quantity, "drawn"),
      text: quantity.text,
      place: this.place(path, span),
    });
  }

  /** A quantity that a documented default fills in. */
  filledQuantity(path: string, { key, quantity }: { key: QuantityKey; quantity: Quantity }): void {
    this.provenances.set(path, { ...originOf(key, quantity, "guessed"), text: undefined, place: this.nearest(path) });
  }

  /** A count, a word, a flag or a text: what is written is what it is. */
  fact(path: string, { dimension, text, span }: { dimension: string; text: string; span: Span }): void {
    this.provenances.set(path, { ...exact(dimension, "drawn"), text, place: this.place(path, span) });
  }

  filledFact(path: string, { dimension, origin }: { dimension: string; origin: Origin }): void {
    this.provenances.set(path, { ...exact(dimension, origin), text: undefined, place: this.nearest(path) });
  }

  /** Span of the path or of the nearest parent that is in the text. */
  nearestSpan(path: string): Span {
    const place = this.nearest(path);
    const start = this.source.offset(place);
    return { start, end: start + place.length };
  }

  /** Line on which a span begins. */
  line(span: Span): number {
    return this.place("", span).line;
  }

  private nearest(path: string): Place {
    for (let at = path; at !== ""; at = at.includes(".") ? at.slice(0, at.lastIndexOf(".")) : "") {
      const place = this.places.get(at);
      if (place !== undefined) return { ...place, path };
    }
    return { path, line: 1, column: 1, length: 1 };
  }

  private place(path: string, { start, end }: Span): Place {
    return this.source.place({ path, start, end });
  }
}

function originOf(key: QuantityKey, quantity: Quantity, otherwise: Origin): Omit<Provenance, "text" | "place"> {
  const origin = quantity.origin ?? otherwise;
  const written = absoluteTolerance(quantity);
  return {
    origin,
    dimension: key.dimension,
    tolerance: written ?? defaultTolerance({ kind: key.tolerance ?? key.dimension, origin, value: quantity.value }),
    toleranceFrom: written === undefined ? "default" : "written",
  };
}

function exact(dimension: string, origin: Origin): Omit<Provenance, "text" | "place"> {
  return { origin, dimension, tolerance: 0, toleranceFrom: "default" };
}
