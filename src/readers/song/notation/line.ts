/** One line of a tune with a reading head: what stands there, and at which column. */
import { leadingNumber } from "../../../units/number.ts";
import type { Spot } from "./mistake.ts";

const blank = /^[ \t\u00a0\u2009\u202f]+/;

export class Line {
  private at = 0;
  private readonly text: string;
  private readonly number: number;

  /** @param written without its line end; a comment begins with `#` at its start, or alone between spaces */
  constructor(written: string, number: number) {
    this.text = written.replace(/(^\s*#|\s#(?=\s|$)).*$/, "").trimEnd();
    this.number = number;
    this.skip();
  }

  get rest(): string {
    return this.text.slice(this.at);
  }

  get done(): boolean {
    return this.at >= this.text.length;
  }

  /** Column of the head, from 1. */
  get column(): number {
    return this.at + 1;
  }

  /** From a column to the head, or to the end of the word under it where the head has not moved. */
  spot(from = this.column): Spot {
    const length = this.column > from ? this.text.slice(from - 1, this.at).trimEnd().length : this.word().length;
    return { line: this.number, column: from, length };
  }

  /** What stands up to the next space. */
  word(): string {
    return /^\S*/.exec(this.rest)?.[0] ?? "";
  }

  /** Takes what the pattern (anchored with ^) finds, and the spaces behind it. */
  take(pattern: RegExp): RegExpExecArray | undefined {
    const found = pattern.exec(this.rest);
    if (found === null) return undefined;
    this.at += found[0].length;
    this.skip();
    return found;
  }

  /** Takes a number, a fraction such as 3/4 included. */
  takeNumber(): number | undefined {
    const found = leadingNumber(this.rest);
    if (found === undefined) return undefined;
    this.at += found.length;
    this.skip();
    return found.value;
  }

  private skip(): void {
    this.at += blank.exec(this.rest)?.[0].length ?? 0;
  }
}
