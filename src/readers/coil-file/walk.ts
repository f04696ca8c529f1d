/** Walks the YAML tree along the keys: makes the plain coil, notes where each number came from, and reports every problem on the way. */
import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap, type YAMLSeq } from "yaml";
import type { Edit, Finding, Place, Remedy } from "../../catalogue/finding.ts";
import {
  type ChoiceKey,
  type CountKey,
  type FlagKey,
  isQuantityKey,
  type Key,
  type ListKey,
  type NumberKey,
  type OneOfKey,
  ownOf,
  type PairKey,
  type QuantityKey,
  type RecordKey,
  type TextKey,
} from "../../catalogue/keys.ts";
import type { Provenance } from "../../description/provenance.ts";
import { defaultTolerance } from "../../description/tolerances.ts";
import { closestOf } from "../../units/closest.ts";
import { dimensions } from "../../units/dimension.ts";
import { numberOf, writeNumber } from "../../units/number.ts";
import { absoluteTolerance, type Origin, type Quantity, readQuantity } from "../../units/quantity.ts";
import { clip, exampleRemedy, expectationOf, limitsOf, quantityOf, setTo } from "./expectation.ts";
import { splitInline } from "./inline.ts";
import { problem } from "./problem.ts";
import type { Source } from "./source.ts";

/** What a walk leaves behind. `value` is undefined where any key was invalid. */
export interface Walked {
  readonly value: unknown;
  readonly findings: readonly Finding[];
  readonly provenances: ReadonlyMap<string, Provenance>;
  readonly places: ReadonlyMap<string, Place>;
}

/** From offset to offset in the text. */
interface Span {
  readonly start: number;
  readonly end: number;
}
/** A scalar of the text, or a part of one, and where it stands. */
interface Written extends Span {
  readonly text: string;
}
type Content =
  | { readonly scalar: Written }
  | { readonly map: YAMLMap }
  | { readonly list: YAMLSeq }
  | { readonly nothing: Span };

const invalid = Symbol("invalid");
/** Enough to work through; a text with more is not a coil file with mistakes in it. */
const mostFindings = 100;

/** Walks `root` along `key`. Never throws on any tree that `openSource` gives. */
export function walk(source: Source, { root, key }: { root: Node | null; key: RecordKey }): Walked {
  const walker = new Walker(source);
  const value = walker.read(root, key, "");
  return {
    // Keys that stand twice are left out of the walk, so the findings decide, not the value alone.
    value: value === invalid || walker.findings.length > 0 ? undefined : value,
    findings: walker.findings,
    provenances: walker.provenances,
    places: walker.places,
  };
}

class Walker {
  readonly findings: Finding[] = [];
  readonly provenances = new Map<string, Provenance>();
  readonly places = new Map<string, Place>();
  private readonly source: Source;

  constructor(source: Source) {
    this.source = source;
  }

  read(node: unknown, key: Key, path: string): unknown {
    const content = this.contentOf(node, path);
    return content === invalid ? invalid : this.readContent(content, key, path);
  }

  private readContent(content: Content, key: Key, path: string): unknown {
    if ("nothing" in content && (isQuantityKey(key) || key.kind !== "record")) {
      return this.refuse({
        rule: "value-missing",
        path,
        at: content.nothing,
        what: "nothing is written here",
        expected: expectationOf(key),
        remedies: exampleRemedy(path, key),
      });
    }
    if (isQuantityKey(key))
      return this.readScalar(content, key, path, (written) => this.readQuantity(written, key, path));
    switch (key.kind) {
      case "count":
      case "number":
        return this.readScalar(content, key, path, (written) => this.readNumber(written, key, path));
      case "text":
        return this.readScalar(content, key, path, (written) => this.readText(written, key, path));
      case "choice":
        return this.readScalar(content, key, path, (written) => this.readChoice(written, key, path));
      case "flag":
        return this.readScalar(content, key, path, (written) => this.readFlag(written, key, path));
      case "list":
        return this.readList(content, key, path);
      case "pair":
        return this.readPair(content, key, path);
      case "record":
        return this.readRecord(content, key, path);
      case "oneOf":
        return this.readOneOf(content, key, path);
    }
  }

  // ── scalars ────────────────────────────────────────────────────────────────────────────────────────────────────────

  private readScalar(content: Content, key: Key, path: string, read: (written: Written) => unknown): unknown {
    if ("scalar" in content) {
      this.places.set(path, this.source.place({ path, ...content.scalar }));
      return read(content.scalar);
    }
    const found = "map" in content ? "a map of keys" : "a list";
    return this.refuse({
      rule: "wrong-kind",
      path,
      at: spanOf(content),
      what: `${found} where one value belongs`,
      expected: expectationOf(key),
    });
  }

  private readQuantity(written: Written, key: QuantityKey, path: string): unknown {
    const reading = readQuantity(written.text, {
      dimension: key.dimension,
      ...(key.example === undefined ? {} : { example: key.example }),
    });
    if ("problem" in reading) {
      const { code, what, expected, suggestions } = reading.problem;
      return this.refuse({
        rule: code,
        path,
        at: written,
        what,
        expected,
        remedies: suggestions.map((text) => setTo(path, text)),
      });
    }
    const { quantity } = reading;
    const { from, to } = limitsOf(key);
    if (quantity.value < from.value || quantity.value > to.value) {
      const [side, limit] = quantity.value < from.value ? ["under", from] : ["over", to];
      return this.refuse({
        rule: "out-of-range",
        path,
        at: written,
        what: `\`${clip(quantity.text)}\` is ${side} the limit of \`${limit.text}\``,
        expected: `${dimensions[key.dimension].called} from \`${from.text}\` to \`${to.text}\``,
      });
    }
    this.note(path, key, quantity, { text: quantity.text, at: written });
    return quantity.value;
  }

  private readNumber(written: Written, key: CountKey | NumberKey, path: string): unknown {
    const expected = expectationOf(key);
    const value = numberOf(written.text);
    if (value === undefined) {
      const meant = /^[+-]?\d{1,3}(?:,\d{3})+$/.test(written.text)
        ? numberOf(written.text.replaceAll(",", ""))
        : numberOf(/^[\d.]+/.exec(written.text)?.[0] ?? "");
      const remedies =
        meant === undefined || (key.kind === "count" && !Number.isInteger(meant))
          ? []
          : [setTo(path, writeNumber(meant))];
      return this.refuse({
        rule: key.kind === "count" ? "not-a-count" : "not-a-number",
        path,
        at: written,
        what: `\`${clip(written.text)}\` is not a bare number`,
        expected,
        remedies,
      });
    }
    if (key.kind === "count" && !Number.isInteger(value)) {
      return this.refuse({
        rule: "not-a-count",
        path,
        at: written,
        what: `\`${clip(written.text)}\` is not a whole number`,
        expected,
        remedies: [setTo(path, String(Math.round(value)))],
      });
    }
    if (value < key.from || value > key.to) {
      return this.refuse({
        rule: "out-of-range",
        path,
        at: written,
        what: `${clip(written.text)} is ${value < key.from ? "under" : "over"} the limit of ${value < key.from ? key.from : key.to}`,
        expected,
      });
    }
    this.noteFact(path, key.kind, written);
    return value;
  }

  private readText(written: Written, key: TextKey, path: string): unknown {
    const text = written.text.trim();
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are exactly what is refused here
    const unprintable = /[\u0000-\u001f\u007f\ufffe\uffff]/.test(text);
    if (text === "" || text.length > key.longest || unprintable) {
      const what =
        text === ""
          ? "the text is empty"
          : unprintable
            ? "the text has a line break or a control character in it"
            : `the text has ${text.length} characters`;
      return this.refuse({
        rule: "bad-text",
        path,
        at: written,
        what,
        expected: `a text of 1 to ${key.longest} characters on one line`,
      });
    }
    this.noteFact(path, "text", written);
    return text;
  }

  private readChoice(written: Written, key: ChoiceKey, path: string): unknown {
    const words = Object.keys(key.options);
    if (Object.hasOwn(key.options, written.text)) {
      this.noteFact(path, "choice", written);
      return written.text;
    }
    const near = closestOf(written.text, words);
    return this.refuse({
      rule: "not-a-choice",
      path,
      at: written,
      what: `\`${clip(written.text)}\` is not one of the words for this key`,
      expected: expectationOf(key),
      remedies: near === undefined ? [] : [setTo(path, near)],
    });
  }

  private readFlag(written: Written, key: FlagKey, path: string): unknown {
    if (written.text === "true" || written.text === "false") {
      this.noteFact(path, "flag", written);
      return written.text === "true";
    }
    const meant = /^(yes|y|on|1|true)$/i.test(written.text)
      ? "true"
      : /^(no|n|off|0|false)$/i.test(written.text)
        ? "false"
        : undefined;
    return this.refuse({
      rule: "not-a-flag",
      path,
      at: written,
      what: `\`${clip(written.text)}\` is neither true nor false`,
      expected: expectationOf(key),
      remedies: meant === undefined ? [] : [setTo(path, meant)],
    });
  }

  // ── collections ────────────────────────────────────────────────────────────────────────────────────────────────────

  private readList(content: Content, key: ListKey, path: string): unknown {
    if (!("list" in content)) {
      const hint = "map" in content ? "; put `- ` before each item, or brackets around them" : "";
      return this.refuse({
        rule: "wrong-kind",
        path,
        at: spanOf(content),
        what: `${"map" in content ? "a map of keys" : "a single value"} where a list belongs`,
        expected: `a list: ${key.says}${hint}`,
      });
    }
    const { items } = content.list;
    const fewest = key.fewest ?? 0;
    if (items.length > key.most || items.length < fewest) {
      return this.refuse({
        rule: "wrong-count",
        path,
        at: spanOf(content),
        what: `${items.length} items in the list`,
        expected: `${fewest} to ${key.most} items: ${key.says}`,
      });
    }
    let valid = true;
    const values = items.map((item, index) => {
      const span = rangeOf(item);
      if (span !== undefined)
        this.places.set(`${path}.${index}`, this.source.place({ path: `${path}.${index}`, ...span }));
      const value = this.read(item, key.of, `${path}.${index}`);
      valid &&= value !== invalid;
      return value;
    });
    return valid ? Object.freeze(values) : invalid;
  }

  private readPair(content: Content, key: PairKey, path: string): unknown {
    if (!("list" in content) || content.list.items.length !== 2) {
      return this.refuse({
        rule: "wrong-kind",
        path,
        at: spanOf(content),
        what: "not a pair of values",
        expected: expectationOf(key),
      });
    }
    const [first, second] = content.list.items;
    const values = [this.read(first, key.of[0], `${path}.0`), this.read(second, key.of[1], `${path}.1`)];
    return values.includes(invalid) ? invalid : Object.freeze(values);
  }

  private readOneOf(content: Content, key: OneOfKey, path: string): unknown {
    const words = Object.keys(key.words ?? {});
    const cases = Object.keys(key.cases);
    if ("scalar" in content) {
      const written = content.scalar;
      this.places.set(path, this.source.place({ path, ...written }));
      if (words.includes(written.text)) {
        this.noteFact(path, "choice", written);
        return written.text;
      }
      const near = closestOf(written.text, words);
      return this.refuse({
        rule: "not-a-choice",
        path,
        at: written,
        what: `\`${clip(written.text)}\` is not one of the words for this key`,
        expected: expectationOf(key),
        remedies: near === undefined ? [] : [setTo(path, near)],
      });
    }
    if (!("map" in content))
      return this.refuse({
        rule: "wrong-kind",
        path,
        at: spanOf(content),
        what: "a list where one thing belongs",
        expected: expectationOf(key),
      });
    const entries = this.entriesOf(content.map, path);
    const [entry, extra] = entries.values();
    if (entry === undefined || extra !== undefined) {
      return this.refuse({
        rule: "wrong-count",
        path,
        at: extra?.name ?? spanOf(content),
        what:
          extra === undefined
            ? "an empty map"
            : `a second key, \`${clip(extra.name.text)}\`, beside \`${clip(entry?.name.text ?? "")}\``,
        expected: expectationOf(key),
      });
    }
    const chosen = ownOf(key.cases, entry.name.text);
    if (chosen === undefined) {
      return this.refuseUnknownKey(entry, { path, known: cases, expected: expectationOf(key), sized: false });
    }
    const inner = `${path}.${entry.name.text}`;
    this.places.set(inner, this.source.place({ path: inner, ...entry.name }));
    const value = this.read(entry.value, chosen, inner);
    return value === invalid ? invalid : Object.freeze({ [entry.name.text]: value });
  }

  private readRecord(content: Content, key: RecordKey, path: string): unknown {
    if ("scalar" in content) return this.readInline(content.scalar, key, path);
    if ("list" in content)
      return this.refuse({
        rule: "wrong-kind",
        path,
        at: spanOf(content),
        what: "a list where a map of keys belongs",
        expected: expectationOf(key),
      });
    const entries: Map<string, Entry> = "map" in content ? this.entriesOf(content.map, path) : new Map();
    let valid = true;
    const forgiven = new Set<string>();
    for (const entry of entries.values()) {
      if (Object.hasOwn(key.keys, entry.name.text) || Object.hasOwn(key.also ?? {}, entry.name.text)) continue;
      valid = false;
      const near = this.refuseUnknownKey(entry, {
        path,
        known: Object.keys(key.keys).filter((name) => !entries.has(name)),
        expected: expectationOf(key),
        sized: true,
      });
      if (typeof near === "string") forgiven.add(near);
    }
    const record: Record<string, unknown> = {};
    for (const [name, inner] of Object.entries(key.keys)) {
      const value = this.readField(entries, { name, inner, record: key, path, forgiven, siblings: record });
      if (value === invalid) valid = false;
      else if (value !== undefined) record[name] = value;
    }
    return valid ? Object.freeze(record) : invalid;
  }

  private readField(
    entries: ReadonlyMap<string, Entry>,
    {
      name,
      inner,
      record,
      path,
      forgiven,
      siblings,
    }: {
      name: string;
      inner: Key;
      record: RecordKey;
      path: string;
      forgiven: ReadonlySet<string>;
      siblings: Readonly<Record<string, unknown>>;
    },
  ): unknown {
    const innerPath = path === "" ? name : `${path}.${name}`;
    const entry = entries.get(name);
    const [other] = Object.entries(record.also ?? {})
      .filter(([, into]) => into === name)
      .map(([also]) => entries.get(also))
      .filter((e) => e !== undefined);
    if (entry !== undefined) {
      this.places.set(innerPath, this.source.place({ path: innerPath, ...entry.name }));
      if (other !== undefined) {
        this.refuse({
          rule: "said-twice",
          path: innerPath,
          at: other.name,
          what: `\`${other.name.text}\` says again what \`${name}\` says`,
          expected: "one of the two",
        });
        return invalid;
      }
      return this.read(entry.value, inner, innerPath);
    }
    if (other !== undefined && !isQuantityKey(inner) && inner.kind === "oneOf") {
      const chosen = ownOf(inner.cases, other.name.text);
      if (chosen === undefined) return invalid;
      const value = this.read(other.value, chosen, `${innerPath}.${other.name.text}`);
      return value === invalid ? invalid : Object.freeze({ [other.name.text]: value });
    }
    if (forgiven.has(name)) return invalid;
    return this.fill(inner, innerPath, {
      required: "required" in inner && inner.required === true,
      siblings,
      parent: path,
    });
  }

  /** A record on one line: `230 V 50 Hz`. */
  private readInline(written: Written, key: RecordKey, path: string): unknown {
    this.places.set(path, this.source.place({ path, ...written }));
    const parts = splitInline(written.text, key);
    if (parts === undefined) {
      return this.refuse({
        rule: "wrong-kind",
        path,
        at: written,
        what: `\`${clip(written.text)}\` where ${key.inline === undefined ? "a map of keys belongs" : "two values belong"}`,
        expected: expectationOf(key),
      });
    }
    // In quotes or over several lines the parts have no exact columns; the whole value is marked.
    const exact = this.source.text.startsWith(written.text, written.start);
    const values: Record<string, unknown> = {};
    let valid = true;
    for (const [name, inner] of Object.entries(key.keys)) {
      const innerPath = `${path}.${name}`;
      const part = parts.find((p) => p.name === name);
      const value =
        part === undefined
          ? this.fill(inner, innerPath, {
              required: "required" in inner && inner.required === true,
              siblings: values,
              parent: path,
            })
          : this.readContent(
              {
                scalar: exact
                  ? { text: part.text, start: written.start + part.at, end: written.start + part.at + part.text.length }
                  : { ...written, text: part.text },
              },
              inner,
              innerPath,
            );
      if (value === invalid) valid = false;
      else if (value !== undefined) values[name] = value;
    }
    return valid ? Object.freeze(values) : invalid;
  }

  // ── what the file leaves out ───────────────────────────────────────────────────────────────────────────────────────

  /** The value of a missing key: its default, or undefined where it is optional, or a finding where it is not. */
  private fill(
    key: Key,
    path: string,
    { required, siblings, parent }: { required: boolean; siblings: Readonly<Record<string, unknown>>; parent: string },
  ): unknown {
    const name = path.slice(path.lastIndexOf(".") + 1);
    if (required) {
      this.refuse({
        rule: "missing-key",
        path,
        at: this.spanOfPlace(parent),
        what: parent === "" ? `the file has no \`${name}\`` : `\`${parent}\` has no \`${name}\``,
        expected: `\`${name}\`: ${key.says}; ${expectationOf(key)}`,
        remedies: exampleRemedy(path, key),
      });
      return invalid;
    }
    if (isQuantityKey(key)) {
      if (key.derived !== undefined) return this.derive(key, path, siblings);
      return key.default === undefined ? undefined : this.noteDefault(path, key, quantityOf(key.default, key));
    }
    switch (key.kind) {
      case "number":
        if (key.derived !== undefined) return this.derive(key, path, siblings);
        return this.noteFilled(path, key.kind, key.default);
      case "count":
      case "text":
      case "choice":
      case "flag":
        return this.noteFilled(path, key.kind, key.default);
      case "list":
        return key.default === undefined ? undefined : Object.freeze([]);
      case "record":
        return key.always === true ? this.readRecord({ nothing: { start: 0, end: 0 } }, key, path) : undefined;
      default:
        return undefined;
    }
  }

  private derive(key: QuantityKey | NumberKey, path: string, siblings: Readonly<Record<string, unknown>>): unknown {
    const derived = key.derived;
    const sibling = derived === undefined ? undefined : siblings[derived.from];
    // Where the sibling itself is invalid its own finding says so.
    if (derived === undefined || typeof sibling !== "number") return invalid;
    const value = derived.by(sibling);
    if (isQuantityKey(key))
      return this.noteDefault(path, key, {
        value,
        dimension: key.dimension,
        unit: "",
        text: "",
        origin: derived.origin,
      });
    this.provenances.set(path, {
      text: undefined,
      origin: derived.origin,
      tolerance: 0,
      toleranceFrom: "default",
      dimension: key.kind,
      place: this.nearest(path),
    });
    return value;
  }

  private noteDefault(path: string, key: QuantityKey, quantity: Quantity): number {
    this.note(path, key, { ...quantity, origin: quantity.origin ?? "guessed" }, { text: undefined });
    return quantity.value;
  }

  private noteFilled(path: string, dimension: string, value: unknown): unknown {
    if (value !== undefined)
      this.provenances.set(path, {
        text: undefined,
        origin: "drawn",
        tolerance: 0,
        toleranceFrom: "default",
        dimension,
        place: this.nearest(path),
      });
    return value;
  }

  // ── notes and findings ─────────────────────────────────────────────────────────────────────────────────────────────

  private note(
    path: string,
    key: QuantityKey,
    quantity: Quantity,
    { text, at }: { text: string | undefined; at?: Written },
  ): void {
    const origin: Origin = quantity.origin ?? "drawn";
    const written = absoluteTolerance(quantity);
    this.provenances.set(path, {
      text,
      origin,
      tolerance: written ?? defaultTolerance({ kind: key.tolerance ?? key.dimension, origin, value: quantity.value }),
      toleranceFrom: written === undefined ? "default" : "written",
      dimension: key.dimension,
      place: at === undefined ? this.nearest(path) : this.source.place({ path, ...at }),
    });
  }

  private noteFact(path: string, dimension: string, at: Written): void {
    this.provenances.set(path, {
      text: at.text,
      origin: "drawn",
      tolerance: 0,
      toleranceFrom: "default",
      dimension,
      place: this.source.place({ path, ...at }),
    });
  }

  private refuse({
    rule,
    path,
    at,
    what,
    expected,
    remedies = [],
  }: {
    rule: string;
    path: string;
    at: Span;
    what: string;
    expected: string;
    remedies?: readonly Remedy[];
  }): typeof invalid {
    if (this.findings.length < mostFindings)
      this.findings.push(
        problem({
          rule,
          path,
          place: this.source.place({ path, start: at.start, end: at.end }),
          what,
          expected,
          remedies,
        }),
      );
    return invalid;
  }

  /** Reports a key that is not known. Returns the known key that was probably meant, else `invalid`. */
  private refuseUnknownKey(
    entry: Entry,
    { path, known, expected, sized }: { path: string; known: readonly string[]; expected: string; sized: boolean },
  ): string | typeof invalid {
    const { text } = entry.name;
    const at = path === "" ? text : `${path}.${text}`;
    if (entry.afterNumber !== undefined && /^\d/.test(text)) {
      this.refuse({
        rule: "decimal-comma",
        path: at,
        at: entry.name,
        what: `\`${clip(text)}\` stands alone between commas; inside braces a comma separates keys`,
        expected: `a decimal point: \`${entry.afterNumber}.${clip(text)}\``,
      });
      return invalid;
    }
    const near = closestOf(text, known);
    const value = this.sourceOf(entry.value);
    const edits: Edit[] | undefined =
      near === undefined || value === undefined || text.includes(".")
        ? undefined
        : [
            { path: at, value: undefined },
            { path: path === "" ? near : `${path}.${near}`, value },
          ];
    this.refuse({
      rule: "unknown-key",
      path: at,
      at: entry.name,
      what: `\`${clip(text)}\` is not a key ${path === "" ? "of a coil file" : `of \`${path}\``}`,
      expected: near === undefined || !sized ? expected : `\`${near}\`, or ${expected}`,
      remedies: near === undefined || edits === undefined ? [] : [{ says: `${near}: ${clip(value ?? "")}`, edits }],
    });
    return near ?? invalid;
  }

  /** The text of a value that can be moved elsewhere as it stands: on one line and without an indentation of its own. */
  private sourceOf(node: unknown): string | undefined {
    const range = (node as Node | null)?.range;
    if (range === undefined || range === null) return undefined;
    const text = this.source.text.slice(range[0], range[1]).trim();
    const block = (isMap(node) || isSeq(node)) && node.flow !== true;
    return block || text === "" || text.includes("\n") ? undefined : text;
  }

  /** The keys of a map by name; reports keys that are not plain words and keys that stand twice. */
  private entriesOf(map: YAMLMap, path: string): Map<string, Entry> {
    const entries = new Map<string, Entry>();
    let before: string | undefined;
    for (const pair of map.items as readonly Pair<unknown, unknown>[]) {
      const name = pair.key;
      if (!isScalar(name) || typeof name.value !== "string") {
        const span = rangeOf(name) ?? rangeOf(map) ?? { start: 0, end: 1 };
        this.refuse({
          rule: "not-a-key",
          path,
          at: span,
          what: "this is not a key",
          expected: "a word followed by a colon",
        });
        continue;
      }
      const written: Written = { text: name.value, ...(rangeOf(name) ?? { start: 0, end: 1 }) };
      const first = entries.get(written.text);
      if (first !== undefined) {
        const { line } = this.source.place({ path, start: first.name.start, end: first.name.end });
        const at = path === "" ? written.text : `${path}.${written.text}`;
        this.refuse({
          rule: "duplicate-key",
          path: at,
          at: written,
          what: `\`${clip(written.text)}\` stands here a second time; the first is in line ${line}`,
          expected: "each key once",
        });
        continue;
      }
      entries.set(written.text, {
        name: written,
        value: pair.value,
        afterNumber: map.flow === true ? before : undefined,
      });
      before =
        isScalar(pair.value) && typeof pair.value.value === "string" && /^\d+$/.test(pair.value.value)
          ? pair.value.value
          : undefined;
    }
    return entries;
  }

  private contentOf(node: unknown, path: string): Content | typeof invalid {
    const span = rangeOf(node);
    if (isAlias(node)) {
      return this.refuse({
        rule: "no-aliases",
        path,
        at: span ?? { start: 0, end: 1 },
        what: `\`*${clip(node.source)}\` is an alias`,
        expected: "the value itself: a coil file has no anchors and aliases",
      });
    }
    if (isScalar(node) || isMap(node) || isSeq(node)) {
      const marked = node as { anchor?: string; tag?: string };
      if (
        marked.anchor !== undefined ||
        (marked.tag !== undefined && !/^tag:yaml\.org,2002:(str|map|seq)$/.test(marked.tag))
      ) {
        const what =
          marked.anchor === undefined
            ? `\`${clip(marked.tag ?? "")}\` is a tag`
            : `\`&${clip(marked.anchor)}\` is an anchor`;
        return this.refuse({
          rule: marked.anchor === undefined ? "no-tags" : "no-aliases",
          path,
          at: span ?? { start: 0, end: 1 },
          what,
          expected: "the plain value: a coil file has no tags, anchors and aliases",
        });
      }
    }
    if (isMap(node)) return { map: node };
    if (isSeq(node)) return { list: node };
    const at = span ?? this.spanOfPlace(path);
    if (isScalar(node) && typeof node.value === "string") {
      const quoted = node.type === "QUOTE_DOUBLE" || node.type === "QUOTE_SINGLE";
      return node.value.trim() === "" && !quoted ? { nothing: at } : { scalar: { ...at, text: node.value } };
    }
    return { nothing: at };
  }

  private spanOfPlace(path: string): Span {
    const place = this.nearest(path);
    const start = this.source.offset(place);
    return { start, end: start + place.length };
  }

  /** Place of the path or of the nearest parent that is in the text. */
  private nearest(path: string): Place {
    for (let at = path; at !== ""; at = at.includes(".") ? at.slice(0, at.lastIndexOf(".")) : "") {
      const place = this.places.get(at);
      if (place !== undefined) return { ...place, path };
    }
    return { path, line: 1, column: 1, length: 1 };
  }
}

interface Entry {
  readonly name: Written;
  readonly value: unknown;
  /** In braces, the bare number that is the value just before this key: the sign of a decimal comma. */
  readonly afterNumber: string | undefined;
}

function rangeOf(node: unknown): Span | undefined {
  const range = (node as Node | null | undefined)?.range;
  return range === undefined || range === null ? undefined : { start: range[0], end: range[1] };
}

function spanOf(content: Content): Span {
  if ("scalar" in content) return content.scalar;
  if ("nothing" in content) return content.nothing;
  return rangeOf("map" in content ? content.map : content.list) ?? { start: 0, end: 1 };
}
