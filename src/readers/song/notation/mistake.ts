/** What is wrong in a tune's text, placed. */
import type { Finding } from "../../../catalogue/finding.ts";

/** Part of a line, columns from 1. */
export interface Spot {
  readonly line: number;
  readonly column: number;
  readonly length: number;
}

export interface Mistake {
  readonly rule: string;
  readonly what: string;
  readonly expected: string;
  /** What to do about it, one sentence each. */
  readonly youCan?: readonly string[];
}

/** After this many the rest is most likely not a tune. */
const most = 20;

export class Mistakes {
  private readonly found: Finding[] = [];

  get full(): boolean {
    return this.found.length >= most;
  }

  add({ line, column, length }: Spot, { rule, what, expected, youCan = [] }: Mistake): void {
    if (this.full) return;
    this.found.push({
      rule,
      severity: "stop",
      path: "song",
      place: { path: "song", line, column, length: Math.max(1, length) },
      what,
      expected,
      evidence: [],
      remedies: youCan.map((says) => ({ says, edits: [] })),
    });
  }

  findings(): readonly Finding[] {
    const at = ({ place }: Finding): number => (place?.line ?? 0) * 1e6 + (place?.column ?? 0);
    return [...this.found].sort((a, b) => at(a) - at(b));
  }
}

const longestQuote = 40;

/** A piece of the text as it may stand in a message. */
export function quoted(text: string): string {
  const clean = text.replace(/[\p{Cc}\p{Cf}`]/gu, "·");
  return `\`${clean.length > longestQuote ? `${clean.slice(0, longestQuote - 1)}…` : clean}\``;
}
