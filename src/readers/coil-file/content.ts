/** What stands at a node of the tree: a text, a map with its keys, a list, or nothing. Refuses what a coil file has no use for. */
import { isAlias, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap } from "yaml";
import { clip } from "./expectation.ts";
import type { Invalid, Notes, Span } from "./notes.ts";

/** A scalar of the text, or a part of one, and where it stands. */
export interface Written extends Span {
  readonly text: string;
}

export interface Entry {
  readonly name: Written;
  readonly value: unknown;
  /** In braces, the bare number that is the value just before this key: the sign of a decimal comma. */
  readonly afterNumber: string | undefined;
}

export type Content =
  | ({ readonly kind: "scalar" } & Written)
  | ({ readonly kind: "map"; readonly entries: ReadonlyMap<string, Entry> } & Span)
  | ({ readonly kind: "list"; readonly items: readonly unknown[] } & Span)
  | ({ readonly kind: "nothing" } & Span);

/** Looks at a node; `nothing` where a value is empty, placed at its key. */
export function contentOf(node: unknown, { path, notes }: { path: string; notes: Notes }): Content | Invalid {
  const span = spanOf(node) ?? notes.nearestSpan(path);
  if (isAlias(node)) {
    return notes.refuse(path, span, {
      rule: "no-aliases",
      what: `\`*${clip(node.source)}\` is an alias`,
      expected: "the value itself: a coil file has no anchors and aliases",
    });
  }
  const mark = markOf(node);
  if (mark !== undefined) {
    return notes.refuse(path, span, {
      ...mark,
      expected: "the plain value: a coil file has no tags, anchors and aliases",
    });
  }
  if (isMap(node)) return { kind: "map", entries: entriesOf(node, { path, notes }), ...span };
  if (isSeq(node)) return { kind: "list", items: node.items, ...span };
  if (isScalar(node) && typeof node.value === "string") {
    const quoted = node.type === "QUOTE_DOUBLE" || node.type === "QUOTE_SINGLE";
    if (node.value.trim() !== "" || quoted) return { kind: "scalar", text: node.value, ...span };
  }
  return { kind: "nothing", ...notes.nearestSpan(path) };
}

/** A tag or an anchor at a node. */
function markOf(node: unknown): { readonly rule: string; readonly what: string } | undefined {
  if (!isScalar(node) && !isMap(node) && !isSeq(node)) return undefined;
  if (node.anchor !== undefined) return { rule: "no-aliases", what: `\`&${clip(node.anchor)}\` is an anchor` };
  const plain = node.tag === undefined || /^tag:yaml\.org,2002:(str|map|seq)$/.test(node.tag);
  return plain ? undefined : { rule: "no-tags", what: `\`${clip(node.tag ?? "")}\` is a tag` };
}

/** The keys of a map by name; reports keys that are no words and keys that stand twice, and leaves them out. */
function entriesOf(map: YAMLMap, { path, notes }: { path: string; notes: Notes }): ReadonlyMap<string, Entry> {
  const entries = new Map<string, Entry>();
  let before: string | undefined;
  for (const { key, value } of map.items as readonly Pair<unknown, unknown>[]) {
    const span = spanOf(key) ?? spanOf(map) ?? { start: 0, end: 1 };
    if (!isScalar(key) || typeof key.value !== "string") {
      notes.refuse(path, span, {
        rule: "not-a-key",
        what: "this is not a key",
        expected: "a word followed by a colon",
      });
      continue;
    }
    const name: Written = { text: key.value, ...span };
    const first = entries.get(name.text);
    if (first !== undefined) {
      notes.refuse(path === "" ? name.text : `${path}.${name.text}`, span, {
        rule: "duplicate-key",
        what: `\`${clip(name.text)}\` stands here a second time; the first is in line ${notes.line(first.name)}`,
        expected: "each key once",
      });
      continue;
    }
    entries.set(name.text, { name, value, afterNumber: map.flow === true ? before : undefined });
    before = isScalar(value) && typeof value.value === "string" && /^\d+$/.test(value.value) ? value.value : undefined;
  }
  return entries;
}

export function spanOf(node: unknown): Span | undefined {
  const range = (node as Node | null | undefined)?.range;
  return range === undefined || range === null ? undefined : { start: range[0], end: range[1] };
}
