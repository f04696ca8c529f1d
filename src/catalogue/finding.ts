/** What a finding is: data. The words are made in one place, `src/views`. */

/** `stop`: do not switch on. `fix`: it will not work or not last. `look`: worth a second look. */
export type Severity = "stop" | "fix" | "look";

/** A place in the coil file. Lines and columns count from 1; `path` is the dotted key path, list items by number from 0. */
export interface Place {
  readonly path: string;
  readonly line: number;
  readonly column: number;
  /** Length of the marked text on that line, at least 1. */
  readonly length: number;
  /** Offset in a file that is no text; line is then 1 and column the byte's number from 1. */
  readonly byte?: number;
}

/** One change to the coil file, in the file's own words: set `path` to the text `value` (created where missing), or remove it. */
export interface Edit {
  readonly path: string;
  /** YAML scalar or flow text to write, e.g. `1193`, `457.6 mm`, `{ bare: 0.3 mm }`. Undefined removes the key. */
  readonly value: string | undefined;
  /** One line to stand beside the value as a comment of the file; what is commented there already stays. */
  readonly comment?: string;
}

/** A ready remedy: what it says it does, and the edits that do it. `edits` is empty where only hands can help. */
export interface Remedy {
  readonly says: string;
  readonly edits: readonly Edit[];
}

export interface Finding {
  /** Kebab-case id of the rule that made it, e.g. `winding-does-not-fit`. */
  readonly rule: string;
  readonly severity: Severity;
  /** Dotted path in the coil file it is about; the reader or workbench fills in line and column. */
  readonly path: string;
  readonly place?: Place;
  /** What was found, with numbers and units, one sentence without a full stop. */
  readonly what: string;
  /** What was expected, with numbers and units. */
  readonly expected?: string;
  /** Figures (by id) and file paths that the finding stands on. */
  readonly evidence: readonly string[];
  readonly remedies: readonly Remedy[];
  /** Key of the published source in `sources`, where there is one. */
  readonly source?: string;
}
