/** How a part is declared: one record with its keys and its geometry, read by reader, form, drawing, solver, sheets and manual alike. */
import type { Key, KeyRecord, RecordValue, Value } from "../catalogue/keys.ts";
import type { Metre, Radian } from "../units/si.ts";
import type { Outline } from "./shape.ts";

/** A conductor of revolution on top of the winding. */
export interface TopLoadPart<R extends KeyRecord> {
  readonly kind: string;
  readonly says: string;
  readonly keys: R;
  /** Closed, or from the axis to the axis; metres above the ground plane. */
  readonly outline: (size: RecordValue<R>) => Outline;
  /** What is wrong with the shape itself, in the file's words, or undefined: `key` is the one to point at. */
  readonly impossible?: (size: RecordValue<R>) => ShapeProblem | undefined;
}

export interface ShapeProblem {
  readonly key: string;
  readonly what: string;
  readonly expected: string;
}

/** Where one turn lies; `angle` is that of the winding, 0 flat. */
export interface TurnPlace {
  readonly radius: Metre;
  readonly height: Metre;
  readonly angle?: Radian;
}

/** Cross-section of a primary's conductor. */
export interface ConductorPart<K extends Key> {
  readonly kind: string;
  readonly says: string;
  readonly key: K;
  /** Of one turn: closed, or a thin sheet. */
  readonly outline: (size: Value<K>, at: TurnPlace) => Outline;
  /** Greatest widths of the section: along the row of turns, and across it. */
  readonly extent: (size: Value<K>) => { readonly along: Metre; readonly across: Metre };
}

/** Something that stands around the coil: its keys, and its outline about its own axis. */
export interface SurroundingPart<R extends KeyRecord> {
  readonly kind: string;
  readonly says: string;
  readonly keys: R;
  readonly outline: (size: RecordValue<R>) => Outline;
  readonly impossible?: (size: RecordValue<R>) => ShapeProblem | undefined;
}

export function defineTopLoad<const R extends KeyRecord>(part: TopLoadPart<R>): TopLoadPart<R> {
  return part;
}

export function defineConductor<const K extends Key>(part: ConductorPart<K>): ConductorPart<K> {
  return part;
}

export function defineSurrounding<const R extends KeyRecord>(part: SurroundingPart<R>): SurroundingPart<R> {
  return part;
}
