/** Findings about a record, placed in its file; the same trouble in many lines is one finding with a count. */
import type { Finding, Place, Remedy, Severity } from "../../catalogue/finding.ts";

export interface Trouble {
  readonly rule: string;
  readonly severity?: Severity;
  /** `record`, or `record.channels.2` and the like. */
  readonly path?: string;
  readonly line?: number;
  readonly column?: number;
  readonly length?: number;
  readonly what: string;
  readonly expected?: string;
  /** What a person can do, one sentence each. */
  readonly remedies?: readonly string[];
}

const exportAgain = ["export the record from the instrument once more, whole and as CSV"];

/** A finding of the reader; `stop` where nothing else is said: the record cannot be read as it stands. */
export function trouble({
  rule,
  severity = "stop",
  path = "record",
  line,
  column = 1,
  length = 1,
  what,
  expected,
  remedies = [],
}: Trouble): Finding {
  const place: Place | undefined = line === undefined ? undefined : { path, line, column, length };
  return {
    rule,
    severity,
    path,
    what: printable(what),
    evidence: [],
    remedies: (remedies.length === 0 && severity === "stop" ? exportAgain : remedies).map(
      (says): Remedy => ({ says, edits: [] }),
    ),
    ...(place === undefined ? {} : { place }),
    ...(expected === undefined ? {} : { expected }),
  };
}

interface Counted {
  count: number;
  readonly line: number;
  readonly column: number;
  readonly token: string;
}

/** Counts what goes wrong in rows by kind, and keeps where each kind was first met. */
export class Tally<Kind extends string> {
  private readonly kinds = new Map<Kind, Counted>();

  add(kind: Kind, at: { line: number; column: number; token: string }): void {
    const known = this.kinds.get(kind);
    if (known === undefined) this.kinds.set(kind, { ...at, token: shortened(at.token), count: 1 });
    else known.count++;
  }

  get(kind: Kind): Readonly<Counted> | undefined {
    return this.kinds.get(kind);
  }
}

const longestQuote = 40;

const printable = (text: string) => text.replace(/[\u0000-\u001f\u007f\u0080-\u009f\ufffd]/g, "·");

/** A token as it may stand in a message: control characters replaced, cut where it is long. */
export function shortened(token: string): string {
  const clean = printable(token);
  return clean.length > longestQuote ? `${clean.slice(0, longestQuote - 1)}…` : clean;
}

/** `1 row`, `3 rows`. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
