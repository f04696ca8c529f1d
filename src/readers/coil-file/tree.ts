/** Finding one's way in a YAML tree: by path, and by where things end in the text. */
import { type Document, isMap, isScalar, isSeq, type Node, type Pair, type YAMLMap, type YAMLSeq } from "yaml";

export type MapPair = Pair<unknown, unknown>;
/** A step of a path: a key of a map, or the number of a list item. */
export type Step = string;

/** `a.0.b` → steps; the empty path is the whole file. */
export function stepsOf(path: string): readonly Step[] {
  return path === "" ? [] : path.split(".");
}

/** The pair of `map` with this key, the last of several. */
export function pairOf(map: YAMLMap, name: Step): MapPair | undefined {
  return (map.items as readonly MapPair[]).findLast((pair) => isScalar(pair.key) && pair.key.value === name);
}

/** The node at these steps; null for an empty value, undefined where there is none. */
export function nodeAt(document: Document, steps: readonly Step[]): Node | null | undefined {
  let node: Node | null | undefined = document.contents;
  for (const step of steps) {
    if (isMap(node)) {
      const pair = pairOf(node, step);
      if (pair === undefined) return undefined;
      node = pair.value as Node | null;
    } else if (isSeq(node)) {
      if (!/^\d+$/.test(step) || Number(step) >= node.items.length) return undefined;
      node = node.items[Number(step)] as Node | null;
    } else return undefined;
  }
  return node;
}

export function startOf(node: unknown): number {
  return (node as Node | null)?.range?.[0] ?? 0;
}

/** True for an empty value: `key:` with nothing after it. */
export function isNothing(node: unknown): boolean {
  return node === null || node === undefined || (isScalar(node) && node.value === "" && node.type === "PLAIN");
}

/** Where the last written character of a node stands, plus one; without comments and line breaks after it. */
export function endOf(node: unknown, text: string): number {
  if (isMap(node) && node.flow !== true) {
    const last = (node.items as readonly MapPair[]).at(-1);
    if (last !== undefined) return endOfPair(last, text);
  }
  if (isSeq(node) && node.flow !== true) {
    const last = node.items.at(-1);
    if (last !== undefined && !isNothing(last)) return endOf(last, text);
    if (last !== undefined) return startOf(last);
  }
  const range = (node as Node | null)?.range;
  if (range === undefined || range === null) return 0;
  return range[0] + text.slice(range[0], range[1]).trimEnd().length;
}

/** Where a pair ends: its value's end, or that of its colon or key where the value is empty. */
export function endOfPair(pair: MapPair, text: string): number {
  return isNothing(pair.value) ? (colonOf(pair) ?? endOf(pair.key, text) - 1) + 1 : endOf(pair.value, text);
}

/** Offset of the colon of a pair, where it has one. */
export function colonOf(pair: MapPair): number | undefined {
  return pair.srcToken?.sep?.find((token) => token.type === "map-value-ind")?.offset;
}

/** Offset of the dash of an item of a block list. */
export function dashOf(list: YAMLSeq, index: number): number | undefined {
  const token = list.srcToken;
  if (token?.type !== "block-seq") return undefined;
  return token.items[index]?.start.find((t) => t.type === "seq-item-ind")?.offset;
}

export function lineStart(text: string, offset: number): number {
  return text.lastIndexOf("\n", offset - 1) + 1;
}

/** Offset of the line break that ends the line, before its CR where it has one; the end of the text on the last line. */
export function lineEnd(text: string, offset: number): number {
  const at = text.indexOf("\n", offset);
  const end = at === -1 ? text.length : at;
  return end > offset && text[end - 1] === "\r" ? end - 1 : end;
}
