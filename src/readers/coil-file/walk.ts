/** Walks the YAML tree along the keys: makes the plain coil, notes where each number came from, and reports every problem on the way. */
import type { Node } from "yaml";
import type { Finding, Place } from "../../catalogue/finding.ts";
import {
  isQuantityKey,
  type Key,
  type ListKey,
  type OneOfKey,
  ownOf,
  type PairKey,
  type RecordKey,
} from "../../catalogue/keys.ts";
import type { Provenance } from "../../description/provenance.ts";
import { type Content, contentOf, type Entry, spanOf, type Written } from "./content.ts";
import { clip, exampleRemedy, expectationOf } from "./expectation.ts";
import { fillMissing } from "./fill.ts";
import { splitInline } from "./inline.ts";
import { type Invalid, invalid, Notes, type Span } from "./notes.ts";
import { isScalarKey, notAChoice, readScalar, type ScalarKey } from "./scalars.ts";
import type { Source } from "./source.ts";
import { refuseUnknownKey } from "./unknown-key.ts";

/** What a walk leaves behind. `value` is undefined where any key was invalid. */
export interface Walked {
  readonly value: unknown;
  readonly findings: readonly Finding[];
  readonly provenances: ReadonlyMap<string, Provenance>;
  readonly places: ReadonlyMap<string, Place>;
}

interface Walk {
  readonly notes: Notes;
  readonly text: string;
}

/** Walks `root` along `key`. Never throws on any tree that `openSource` gives. */
export function walkTree(source: Source, { root, key }: { root: Node | null; key: RecordKey }): Walked {
  const notes = new Notes(source);
  const value = readNode({ notes, text: source.text }, root, { key, path: "" });
  return {
    // Keys that stand twice are left out of the walk, so the findings decide, not the value alone.
    value: value === invalid || notes.findings.length > 0 ? undefined : value,
    findings: notes.findings,
    provenances: notes.provenances,
    places: notes.places,
  };
}

interface At<K extends Key> {
  readonly key: K;
  readonly path: string;
}

function readNode(walk: Walk, node: unknown, { key, path }: At<Key>): unknown {
  const content = contentOf(node, { path, notes: walk.notes });
  return content === invalid ? invalid : readContent(walk, content, { key, path });
}

function readContent(walk: Walk, content: Content, { key, path }: At<Key>): unknown {
  if (isScalarKey(key)) return readValue(walk, content, { key, path });
  if (key.kind === "record") return readRecord(walk, content, { key, path });
  if (content.kind === "nothing") return nothingAt(walk, content, { key, path });
  switch (key.kind) {
    case "list":
      return readList(walk, content, { key, path });
    case "pair":
      return readPair(walk, content, { key, path });
    case "oneOf":
      return readOneOf(walk, content, { key, path });
  }
}

function nothingAt({ notes }: Walk, span: Span, { key, path }: At<Key>): Invalid {
  return notes.refuse(path, span, {
    rule: "value-missing",
    what: "nothing is written here",
    expected: expectationOf(key),
    remedies: exampleRemedy(path, key),
  });
}

function readValue(walk: Walk, content: Content, { key, path }: At<ScalarKey>): unknown {
  const { notes } = walk;
  if (content.kind === "nothing") return nothingAt(walk, content, { key, path });
  if (content.kind !== "scalar") {
    return notes.refuse(path, content, {
      rule: "wrong-kind",
      what: `${content.kind === "map" ? "a map of keys" : "a list"} where one value belongs`,
      expected: expectationOf(key),
    });
  }
  notes.mark(path, content);
  const reading = readScalar(content.text, { key, path });
  if ("refusal" in reading) return notes.refuse(path, content, reading.refusal);
  if (isQuantityKey(key) && reading.quantity !== undefined)
    notes.quantity(path, { key, quantity: reading.quantity, span: content });
  else if (!isQuantityKey(key)) notes.fact(path, { dimension: key.kind, text: content.text, span: content });
  return reading.value;
}

function readList(walk: Walk, content: Content, { key, path }: At<ListKey>): unknown {
  const { notes } = walk;
  if (content.kind !== "list") {
    const isMap = content.kind === "map";
    return notes.refuse(path, content, {
      rule: "wrong-kind",
      what: `${isMap ? "a map of keys" : "a single value"} where a list belongs`,
      expected: `a list: ${key.says}${isMap ? "; put `- ` before each item, or brackets around them" : ""}`,
    });
  }
  const { items } = content;
  const fewest = key.fewest ?? 0;
  if (items.length > key.most || items.length < fewest) {
    return notes.refuse(path, content, {
      rule: "wrong-count",
      what: `${items.length} items in the list`,
      expected: `${fewest} to ${key.most} items: ${key.says}`,
    });
  }
  return allOf(
    items.map((item, index) => {
      const span = spanOf(item);
      if (span !== undefined) notes.mark(`${path}.${index}`, span);
      return readNode(walk, item, { key: key.of, path: `${path}.${index}` });
    }),
  );
}

function readPair(walk: Walk, content: Content, { key, path }: At<PairKey>): unknown {
  if (content.kind !== "list" || content.items.length !== 2) {
    return walk.notes.refuse(path, content, {
      rule: "wrong-kind",
      what: "not a pair of values",
      expected: expectationOf(key),
    });
  }
  return allOf(
    key.of.map((inner, half) => readNode(walk, content.items[half], { key: inner, path: `${path}.${half}` })),
  );
}

function allOf(values: readonly unknown[]): unknown {
  return values.includes(invalid) ? invalid : Object.freeze(values);
}

function readOneOf(walk: Walk, content: Content, { key, path }: At<OneOfKey>): unknown {
  const { notes } = walk;
  if (content.kind === "scalar") {
    notes.mark(path, content);
    const words = Object.keys(key.words ?? {});
    if (!words.includes(content.text))
      return notes.refuse(path, content, notAChoice(content.text, { key, words, path }));
    notes.fact(path, { dimension: "choice", text: content.text, span: content });
    return content.text;
  }
  if (content.kind !== "map")
    return notes.refuse(path, content, {
      rule: "wrong-kind",
      what: "a list where one thing belongs",
      expected: expectationOf(key),
    });
  const [entry, extra] = content.entries.values();
  if (entry === undefined)
    return notes.refuse(path, content, { rule: "wrong-count", what: "an empty map", expected: expectationOf(key) });
  if (extra !== undefined) {
    return notes.refuse(path, extra.name, {
      rule: "wrong-count",
      what: `a second key, \`${clip(extra.name.text)}\`, beside \`${clip(entry.name.text)}\``,
      expected: expectationOf(key),
    });
  }
  const name = entry.name.text;
  const chosen = ownOf(key.cases, name);
  if (chosen === undefined) {
    refuseUnknownKey(entry, { path, known: Object.keys(key.cases), expected: expectationOf(key), ...walk });
    return invalid;
  }
  notes.mark(`${path}.${name}`, entry.name);
  const value = readNode(walk, entry.value, { key: chosen, path: `${path}.${name}` });
  return value === invalid ? invalid : Object.freeze({ [name]: value });
}

function readRecord(walk: Walk, content: Content, { key, path }: At<RecordKey>): unknown {
  const { notes } = walk;
  if (content.kind === "scalar") return readInline(walk, content, { key, path });
  if (content.kind === "list")
    return notes.refuse(path, content, {
      rule: "wrong-kind",
      what: "a list where a map of keys belongs",
      expected: expectationOf(key),
    });
  const entries: ReadonlyMap<string, Entry> = content.kind === "map" ? content.entries : new Map();
  const free = Object.keys(key.keys).filter((name) => !entries.has(name));
  const strangers = [...entries.values()].filter(
    ({ name }) => !Object.hasOwn(key.keys, name.text) && !Object.hasOwn(key.also ?? {}, name.text),
  );
  // A key that is there under a slip of the pen is not reported as missing too.
  const meant = new Set(
    strangers.map((entry) => refuseUnknownKey(entry, { path, known: free, expected: expectationOf(key), ...walk })),
  );
  return recordOf(key, strangers.length === 0, (name, inner, siblings) => {
    const innerPath = path === "" ? name : `${path}.${name}`;
    const entry = entries.get(name);
    const other = secondSpelling(entries, { key, name });
    if (entry !== undefined && other !== undefined) {
      return notes.refuse(innerPath, other.name, {
        rule: "said-twice",
        what: `\`${other.name.text}\` says again what \`${name}\` says`,
        expected: "one of the two",
      });
    }
    if (entry !== undefined) {
      notes.mark(innerPath, entry.name);
      return readNode(walk, entry.value, { key: inner, path: innerPath });
    }
    if (other !== undefined) return readSecondSpelling(walk, other, { key: inner, path: innerPath });
    return meant.has(name) ? invalid : fillMissing(notes, { key: inner, path: innerPath, siblings });
  });
}

/** The values of a record in the order of its keys; `invalid` where any is, once all have been read. */
function recordOf(
  { keys }: RecordKey,
  sound: boolean,
  read: (name: string, key: Key, siblings: Readonly<Record<string, unknown>>) => unknown,
): unknown {
  const values: Record<string, unknown> = {};
  let valid = sound;
  for (const [name, key] of Object.entries(keys)) {
    const value = read(name, key, values);
    if (value === invalid) valid = false;
    else if (value !== undefined) values[name] = value;
  }
  return valid ? Object.freeze(values) : invalid;
}

function secondSpelling(
  entries: ReadonlyMap<string, Entry>,
  { key, name }: { key: RecordKey; name: string },
): Entry | undefined {
  const spelling = Object.entries(key.also ?? {}).find(([also, into]) => into === name && entries.has(also));
  return spelling === undefined ? undefined : entries.get(spelling[0]);
}

/** `fixedFrequency: 210 kHz` read as `sense: { fixedFrequency: 210 kHz }`. */
function readSecondSpelling(walk: Walk, entry: Entry, { key, path }: At<Key>): unknown {
  const name = entry.name.text;
  const chosen = isQuantityKey(key) || key.kind !== "oneOf" ? undefined : ownOf(key.cases, name);
  if (chosen === undefined)
    throw new TypeError(`the keys name \`${name}\` as a second spelling of ${path}, which has no such case`);
  walk.notes.mark(`${path}.${name}`, entry.name);
  const value = readNode(walk, entry.value, { key: chosen, path: `${path}.${name}` });
  return value === invalid ? invalid : Object.freeze({ [name]: value });
}

/** A record on one line: `230 V 50 Hz`. */
function readInline(walk: Walk, written: Written, { key, path }: At<RecordKey>): unknown {
  const { notes } = walk;
  notes.mark(path, written);
  const parts = splitInline(written.text, key);
  if (parts === undefined) {
    return notes.refuse(path, written, {
      rule: "wrong-kind",
      what: `\`${clip(written.text)}\` where ${key.inline === undefined ? "a map of keys belongs" : "two values belong"}`,
      expected: expectationOf(key),
    });
  }
  // In quotes or over several lines the parts have no exact columns; the whole value is marked.
  const exact = walk.text.startsWith(written.text, written.start);
  return recordOf(key, true, (name, inner, siblings) => {
    const part = parts.find((each) => each.name === name);
    if (part === undefined) return fillMissing(notes, { key: inner, path: `${path}.${name}`, siblings });
    const start = exact ? written.start + part.at : written.start;
    const end = exact ? start + part.text.length : written.end;
    return readContent(walk, { kind: "scalar", text: part.text, start, end }, { key: inner, path: `${path}.${name}` });
  });
}
