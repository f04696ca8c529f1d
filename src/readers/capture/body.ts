/** The rows of a CSV on their way to a record. */
import type { Dialect } from "./dialect.ts";
import type { GrowingSamples, GrowingTimes } from "./growing.ts";
import type { RowParser } from "./rows.ts";

/** What grows while rows arrive. */
export interface Body {
  readonly dialect: Dialect;
  readonly rows: RowParser;
  /** By column of the file; undefined for those that are not kept. The first time column is the record's. */
  readonly columns: readonly (GrowingTimes | GrowingSamples | undefined)[];
}
