/** A scanner for JSON that knows where it is: values with their places, and long lists of numbers straight into typed arrays. */

export interface JsonPlace {
  readonly line: number;
  readonly column: number;
}

export type JsonValue = { readonly at: number } & (
  | { readonly kind: "text"; readonly value: string }
  | { readonly kind: "number"; readonly value: number }
  | { readonly kind: "other"; readonly value: boolean | null }
  | { readonly kind: "list"; readonly items: readonly JsonValue[] }
  /** A list of numbers, nulls (NaN) and the texts `over` and `under` (±Infinity). */
  | { readonly kind: "samples"; readonly values: Float32Array }
  | {
      readonly kind: "object";
      readonly entries: ReadonlyMap<string, JsonValue>;
      readonly keys: ReadonlyMap<string, number>;
    }
);

export class JsonMistake extends Error {
  readonly at: number;
  readonly expected: string;
  constructor(at: number, what: string, expected: string) {
    super(what);
    this.at = at;
    this.expected = expected;
  }
}

const deepest = 20;
const numberPattern = /-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const textPattern = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y;

/** @throws JsonMistake with the offset of the first character that does not fit */
export function scanJson(text: string): JsonValue {
  const scanner = new Scanner(text);
  const value = scanner.value(0);
  scanner.end();
  return value;
}

/** Line and column, from 1, of an offset. */
export function placeIn(text: string, at: number): JsonPlace {
  const before = text.lastIndexOf("\n", at - 1);
  let line = 1;
  for (let i = text.indexOf("\n"); i !== -1 && i < at; i = text.indexOf("\n", i + 1)) line++;
  return { line, column: at - before };
}

class Scanner {
  private at = 0;
  private readonly text: string;

  constructor(text: string) {
    this.text = text;
  }

  end(): void {
    this.blank();
    if (this.at < this.text.length)
      throw new JsonMistake(this.at, "something stands after the record", "the end of the file");
  }

  value(depth: number): JsonValue {
    this.blank();
    const { at } = this;
    if (depth > deepest)
      throw new JsonMistake(at, `more than ${deepest} brackets are nested here`, "a record, which nests four deep");
    switch (this.text[at]) {
      case "{":
        return this.object(depth);
      case "[":
        return this.list(depth);
      case '"':
        return { kind: "text", value: this.string(), at };
      case "t":
        return this.word("true", true);
      case "f":
        return this.word("false", false);
      case "n":
        return this.word("null", null);
      case undefined:
        throw new JsonMistake(at, "the file ends here", "a value");
      default:
        return { kind: "number", value: this.number(), at };
    }
  }

  private object(depth: number): JsonValue {
    const { at } = this;
    const entries = new Map<string, JsonValue>();
    const keys = new Map<string, number>();
    this.at++;
    this.blank();
    if (this.text[this.at] === "}") this.at++;
    else
      for (;;) {
        this.blank();
        const keyAt = this.at;
        if (this.text[keyAt] !== '"') throw new JsonMistake(keyAt, this.found(), 'a key in quotes, e.g. "interval"');
        const key = this.string();
        if (entries.has(key))
          throw new JsonMistake(keyAt, `the key "${key}" stands here a second time`, "each key once");
        this.take(":", "`:` after the key");
        entries.set(key, this.value(depth + 1));
        keys.set(key, keyAt);
        if (this.closes("}")) break;
      }
    return { kind: "object", entries, keys, at };
  }

  private list(depth: number): JsonValue {
    const { at } = this;
    this.at++;
    this.blank();
    if (this.text[this.at] === "]") {
      this.at++;
      return { kind: "samples", values: new Float32Array(0), at };
    }
    if (this.text[this.at] === "{" || this.text[this.at] === "[") return this.items(at, depth);
    return this.samples(at);
  }

  private items(at: number, depth: number): JsonValue {
    const items: JsonValue[] = [];
    do items.push(this.value(depth + 1));
    while (!this.closes("]"));
    return { kind: "list", items, at };
  }

  private samples(at: number): JsonValue {
    let values = new Float32Array(1024);
    let count = 0;
    do {
      if (count === values.length) {
        const longer = new Float32Array(2 * count);
        longer.set(values);
        values = longer;
      }
      this.blank();
      values[count++] = this.sample();
    } while (!this.closes("]"));
    return { kind: "samples", values: values.slice(0, count), at };
  }

  private sample(): number {
    const { at } = this;
    const first = this.text[at];
    const expected = 'a number, null for a gap, "over" or "under" for a value beyond the range';
    if (first === "n" && this.text.startsWith("null", at)) {
      this.at += 4;
      return Number.NaN;
    }
    if (first !== '"') return this.number(expected);
    const word = this.string();
    if (word === "over") return Number.POSITIVE_INFINITY;
    if (word === "under") return Number.NEGATIVE_INFINITY;
    throw new JsonMistake(at, `\`"${word.slice(0, 40)}"\` is no sample`, expected);
  }

  /** True, and past it, at the closing bracket; past the comma otherwise. */
  private closes(bracket: "]" | "}"): boolean {
    this.blank();
    if (this.text[this.at] === bracket) {
      this.at++;
      return true;
    }
    this.take(",", `\`,\` or \`${bracket}\``);
    return false;
  }

  private take(character: string, expected: string): void {
    this.blank();
    if (this.text[this.at] !== character) throw new JsonMistake(this.at, this.found(), expected);
    this.at++;
  }

  private number(expected = "a number such as -0.25 or 1e-7"): number {
    numberPattern.lastIndex = this.at;
    const match = numberPattern.exec(this.text);
    if (match === null) throw new JsonMistake(this.at, this.found(), expected);
    this.at = numberPattern.lastIndex;
    return Number(match[0]);
  }

  private string(): string {
    textPattern.lastIndex = this.at;
    const match = textPattern.exec(this.text);
    if (match === null)
      throw new JsonMistake(this.at, "a text begins here and is not closed on its line", 'a closing `"`');
    this.at = textPattern.lastIndex;
    return JSON.parse(match[0]) as string;
  }

  private word(word: string, value: boolean | null): JsonValue {
    const { at } = this;
    if (!this.text.startsWith(word, at)) throw new JsonMistake(at, this.found(), "true, false or null");
    this.at += word.length;
    return { kind: "other", value, at };
  }

  private found(): string {
    const character = this.text[this.at];
    return character === undefined ? "the file ends here" : `\`${character}\` does not belong here`;
  }

  private blank(): void {
    for (;;) {
      const code = this.text.charCodeAt(this.at);
      if (code !== 32 && code !== 10 && code !== 13 && code !== 9) return;
      this.at++;
    }
  }
}
