/** What the worker gives back for a text. */
import type { Finding } from "../../catalogue/finding.ts";
import type { FieldMap, Solution } from "../../workbench/contract.ts";

export interface Answer {
  /** The text it was worked out for. */
  readonly text: string;
  readonly solution?: Solution;
  readonly findings: readonly Finding[];
  /** Why there is no solution, where the file could be read and still could not be solved. */
  readonly failed?: string;
}

/** Part of the half-plane to map, and how finely. */
export interface MapWindow {
  readonly radius: number;
  readonly height: number;
  readonly columns: number;
  readonly rows: number;
}

export interface MappedField {
  readonly text: string;
  readonly map: FieldMap;
}
