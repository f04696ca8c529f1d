/** A coil file after reading: the plain coil, and beside it where each number came from and what is wrong. */
import type { Finding, Place } from "../catalogue/finding.ts";
import type { Coil } from "./coil.ts";
import type { Provenances } from "./provenance.ts";

/** `coil` is absent where the text cannot be made into one; `findings` are the reader's, in the order of the text. */
export interface CoilFile {
  readonly text: string;
  readonly coil?: Coil;
  readonly provenances: Provenances;
  readonly findings: readonly Finding[];
  /** Place of every key and value that is in the text, by dotted path. Absent where the coil did not come from a text. */
  readonly places?: ReadonlyMap<string, Place>;
}
