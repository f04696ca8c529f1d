/** One change to the text of a YAML file that leaves every other character where it was. */
import { isMap, isScalar, isSeq, type Node, type YAMLMap, type YAMLSeq } from "yaml";
import type { Source } from "./source.ts";
import {
  colonOf,
  dashOf,
  endOf,
  endOfPair,
  isNothing,
  lineEnd,
  lineStart,
  type MapPair,
  nodeAt,
  pairOf,
  type Step,
  startOf,
} from "./tree.ts";

type Opened = Pick<Source, "text" | "document">;

/**
 * Writes `value` (one line of YAML) at `steps`. What is there is replaced; a missing key is put where `order`
 * has it among the keys that are there, or at the end; a list grows by one at its length.
 *
 * @returns the new text, or undefined where the parent is not there or not a collection
 */
export function setAt(
  { text, document }: Opened,
  { steps, value, order }: { steps: readonly Step[]; value: string; order: readonly string[] },
): string | undefined {
  const last = steps.at(-1);
  if (last === undefined) return undefined;
  const parent = nodeAt(document, steps.slice(0, -1));
  if (isMap(parent)) {
    const pair = pairOf(parent, last);
    return pair === undefined
      ? insertPair(text, { map: parent, name: last, value, order })
      : replaceValue(text, { pair, value });
  }
  if (isSeq(parent) && /^\d+$/.test(last)) {
    const index = Number(last);
    if (index < parent.items.length) return replaceItem(text, { list: parent, index, value });
    return index === parent.items.length ? appendItem(text, { list: parent, value }) : undefined;
  }
  return undefined;
}

/** Takes the key or item at `steps` out; the last one leaves an empty `{}` or `[]`. Undefined where it is not there. */
export function removeAt({ text, document }: Opened, steps: readonly Step[]): string | undefined {
  const last = steps.at(-1);
  if (last === undefined) return undefined;
  const parent = nodeAt(document, steps.slice(0, -1));
  if (isMap(parent)) {
    const index = (parent.items as readonly MapPair[]).findIndex(
      (pair) => isScalar(pair.key) && pair.key.value === last,
    );
    return index < 0 ? undefined : removePair({ text, document }, { map: parent, index, steps });
  }
  if (isSeq(parent) && /^\d+$/.test(last) && Number(last) < parent.items.length) {
    return removeItem({ text, document }, { list: parent, index: Number(last), steps });
  }
  return undefined;
}

const cut = (text: string, { start, end, put = "" }: { start: number; end: number; put?: string }): string =>
  text.slice(0, start) + put + text.slice(end);

function replaceValue(text: string, { pair, value }: { pair: MapPair; value: string }): string | undefined {
  const node = pair.value as Node | null;
  if (isBlock(node) || isNothing(node)) {
    const colon = colonOf(pair);
    if (colon === undefined)
      return cut(text, { start: endOf(pair.key, text), end: endOf(pair.key, text), put: `: ${value}` });
    const end = isNothing(node) ? colon + 1 : endOf(node, text);
    return cut(text, { start: colon + 1, end, put: ` ${value}` });
  }
  return cut(text, { start: startOf(node), end: endOf(node, text), put: inSameQuotes(node, value) });
}

function replaceItem(
  text: string,
  { list, index, value }: { list: YAMLSeq; index: number; value: string },
): string | undefined {
  const node = list.items[index];
  if (isNothing(node)) {
    const dash = dashOf(list, index);
    return dash === undefined ? undefined : cut(text, { start: dash + 1, end: dash + 1, put: ` ${value}` });
  }
  return cut(text, { start: startOf(node), end: endOf(node, text), put: inSameQuotes(node, value) });
}

/** A value that replaces one in quotes is put in the same quotes. */
function inSameQuotes(node: unknown, value: string): string {
  if (!isScalar(node) || /^["'[{]/.test(value)) return value;
  if (node.type === "QUOTE_DOUBLE") return JSON.stringify(value);
  return node.type === "QUOTE_SINGLE" ? `'${value.replaceAll("'", "''")}'` : value;
}

function insertPair(
  text: string,
  { map, name, value, order }: { map: YAMLMap; name: string; value: string; order: readonly string[] },
): string | undefined {
  const pairs = map.items as readonly MapPair[];
  const [first] = pairs;
  const written = isJson(first) ? `${JSON.stringify(name)}: ${asJson(value)}` : `${name}: ${value}`;
  if (first === undefined) return cut(text, { start: startOf(map), end: endOf(map, text), put: `{ ${written} }` });
  const rank = order.indexOf(name);
  const earlier =
    rank < 0
      ? pairs.at(-1)
      : pairs.findLast((pair) => isScalar(pair.key) && order.slice(0, rank).includes(String(pair.key.value)));
  const start = startOf(first.key);
  const lead = breakOf(text) + " ".repeat(start - lineStart(text, start));
  if (earlier === undefined)
    return cut(text, { start, end: start, put: `${written}${map.flow === true ? ", " : lead}` });
  const after = endOfPair(earlier, text);
  if (map.flow === true) return cut(text, { start: after, end: after, put: `, ${written}` });
  const at = lineEnd(text, after);
  return cut(text, { start: at, end: at, put: `${lead}${written}` });
}

function appendItem(text: string, { list, value }: { list: YAMLSeq; value: string }): string | undefined {
  const last = list.items.at(-1);
  if (list.flow === true || last === undefined) {
    if (last === undefined) return cut(text, { start: startOf(list), end: endOf(list, text), put: `[ ${value} ]` });
    const after = endOf(last, text);
    return cut(text, { start: after, end: after, put: `, ${value}` });
  }
  const dash = dashOf(list, 0);
  if (dash === undefined) return undefined;
  const at = lineEnd(text, endOf(list, text));
  return cut(text, {
    start: at,
    end: at,
    put: `${breakOf(text)}${" ".repeat(dash - lineStart(text, dash))}- ${value}`,
  });
}

function removePair(
  { text, document }: Opened,
  { map, index, steps }: { map: YAMLMap; index: number; steps: readonly Step[] },
): string | undefined {
  const pairs = map.items as readonly MapPair[];
  const [pair, next, earlier] = [pairs[index], pairs[index + 1], pairs[index - 1]];
  if (pair === undefined) return undefined;
  if (pairs.length === 1) return emptied({ text, document }, { steps: steps.slice(0, -1), empty: "{}" });
  const start = startOf(pair.key);
  const end = endOfPair(pair, text);
  if (map.flow === true) {
    if (next !== undefined) return cut(text, { start, end: startOf(next.key) });
    return cut(text, { start: earlier === undefined ? start : endOfPair(earlier, text), end });
  }
  // `- key: …` shares its line with the dash: the next key moves up to it.
  const ownLine = text.slice(lineStart(text, start), start).trim() === "";
  if (!ownLine) return next === undefined ? undefined : cut(text, { start, end: startOf(next.key) });
  return cut(text, { start: lineStart(text, start), end: pastLine(text, end) });
}

function removeItem(
  { text, document }: Opened,
  { list, index, steps }: { list: YAMLSeq; index: number; steps: readonly Step[] },
): string | undefined {
  const [item, next, earlier] = [list.items[index], list.items[index + 1], list.items[index - 1]];
  if (list.items.length === 1) return emptied({ text, document }, { steps: steps.slice(0, -1), empty: "[]" });
  if (list.flow === true) {
    if (next !== undefined) return cut(text, { start: startOf(item), end: startOf(next) });
    return cut(text, { start: endOf(earlier, text), end: endOf(item, text) });
  }
  const dash = dashOf(list, index);
  if (dash === undefined) return undefined;
  const end = isNothing(item) ? dash + 1 : endOf(item, text);
  const nextDash = dashOf(list, index + 1);
  const ownLine = text.slice(lineStart(text, dash), dash).trim() === "";
  if (!ownLine) return nextDash === undefined ? undefined : cut(text, { start: dash, end: nextDash });
  return cut(text, { start: lineStart(text, dash), end: pastLine(text, end) });
}

/** The collection at `steps` replaced by an empty one. */
function emptied(
  { text, document }: Opened,
  { steps, empty }: { steps: readonly Step[]; empty: string },
): string | undefined {
  if (steps.length === 0) return undefined;
  const node = nodeAt(document, steps);
  if (isBlock(node)) return setAt({ text, document }, { steps, value: empty, order: [] });
  return cut(text, { start: startOf(node), end: endOf(node, text), put: empty });
}

function isBlock(node: unknown): boolean {
  return (isMap(node) || isSeq(node)) && node.flow !== true;
}

/** Offset of the line after the one that `offset` stands on. */
function pastLine(text: string, offset: number): number {
  const at = text.indexOf("\n", offset);
  return at === -1 ? text.length : at + 1;
}

function breakOf(text: string): string {
  return text.includes("\r\n") ? "\r\n" : "\n";
}

function isJson(pair: MapPair | undefined): boolean {
  return isScalar(pair?.key) && pair.key.type === "QUOTE_DOUBLE";
}

/** In a file that is JSON a new text stands in quotes, a number or a flag does not. */
function asJson(value: string): string {
  return /^(-?\d+(\.\d+)?([eE][+-]?\d+)?|true|false|["[{].*)$/.test(value) ? value : JSON.stringify(value);
}
