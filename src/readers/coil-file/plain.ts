/** Trees without positions and comments: what must be the same, or differ in one place, after an edit. */
import { isMap, isScalar, isSeq, type Node } from "yaml";
import { openSource, type Source } from "./source.ts";
import { nodeAt, type Step } from "./tree.ts";

/** A tree of texts: enough to compare. Maps keep their keys apart from everything an object inherits. */
export type Plain = string | readonly Plain[] | ReadonlyMap<string, Plain>;

/** True where two sources hold the same keys and, but for what formatting may change in a quantity, the same texts. */
export function sameValues(a: Source, b: Source): boolean {
  return sameTree(plainOf(a), plainOf(b), foldQuantity);
}

/** Without spaces, with one mark for tolerances and one order for wire gauges. */
function foldQuantity(text: string): string {
  const bare = text.replaceAll(/\s+/g, "").replace(/\+\/?[-\u2212]/, "±");
  return bare.replace(/^(\d+|\d\/0)awg/i, "AWG$1").replace(/^awg#?/i, "AWG");
}

/** The tree of a source. */
export function plainOf(source: Source): Plain {
  return plainOfNode(source.document.contents);
}

function plainOfNode(node: unknown): Plain {
  if (isMap(node))
    return new Map(
      node.items.map((pair) => [isScalar(pair.key) ? String(pair.key.value) : "?", plainOfNode(pair.value)]),
    );
  if (isSeq(node)) return node.items.map(plainOfNode);
  return isScalar(node) ? String(node.value) : "";
}

/** The tree of one value on one line. */
export function plainOfValue(value: string): Plain {
  const source = openSource(`{ key: ${value} }`);
  const node: Node | null | undefined = "refused" in source ? undefined : nodeAt(source.document, ["key"]);
  return plainOfNode(node);
}

/** The tree with another value at these steps, created where it is missing. */
export function withAt(tree: Plain, { steps, value }: { steps: readonly Step[]; value: Plain }): Plain {
  const [step, ...rest] = steps;
  if (step === undefined) return value;
  if (tree instanceof Map)
    return new Map<string, Plain>(tree).set(step, withAt(tree.get(step) ?? "", { steps: rest, value }));
  if (Array.isArray(tree)) {
    const items = [...tree];
    items[Number(step)] = withAt(items[Number(step)] ?? "", { steps: rest, value });
    return items;
  }
  return tree;
}

/** The tree without the key or item at these steps. */
export function withoutAt(tree: Plain, steps: readonly Step[]): Plain {
  const [step = "", ...rest] = steps;
  if (tree instanceof Map) {
    const copy = new Map<string, Plain>(tree);
    const inner = copy.get(step);
    if (rest.length === 0) copy.delete(step);
    else if (inner !== undefined) copy.set(step, withoutAt(inner, rest));
    return copy;
  }
  if (Array.isArray(tree)) {
    return rest.length === 0
      ? tree.filter((_, i) => i !== Number(step))
      : tree.map((item, i) => (i === Number(step) ? withoutAt(item, rest) : item));
  }
  return tree;
}

/** True where both hold the same keys and texts; `fold` is applied to texts first. */
export function sameTree(a: Plain, b: Plain, fold: (text: string) => string = (text) => text): boolean {
  if (a instanceof Map && b instanceof Map) {
    return (
      a.size === b.size && [...a].every(([name, value]) => b.has(name) && sameTree(value, b.get(name) ?? "", fold))
    );
  }
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((item, i) => sameTree(item, b[i] ?? "", fold));
  return typeof a === "string" && typeof b === "string" && fold(a) === fold(b);
}
