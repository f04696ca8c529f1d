/** What a key takes, in words, and the remedies that can be offered where it is missing or wrong. */
import type { Remedy } from "../../catalogue/finding.ts";
import { isQuantityKey, type Key, type QuantityKey, usualLimits } from "../../catalogue/keys.ts";
import { coilKey } from "../../description/coil-keys.ts";
import { dimensions } from "../../units/dimension.ts";
import { type Quantity, readQuantity } from "../../units/quantity.ts";

/** What a key takes, in words with an example. */
export function expectationOf(key: Key): string {
  if (isQuantityKey(key)) {
    const { called, example } = dimensions[key.dimension];
    return `${called}, e.g. \`${key.example ?? example}\``;
  }
  const names = (record: Readonly<Record<string, unknown>>): string =>
    Object.keys(record)
      .map((name) => `\`${name}\``)
      .join(", ");
  switch (key.kind) {
    case "count":
      return key.only === undefined
        ? `a whole number from ${key.from} to ${key.to}, without a unit`
        : `one of ${key.only.join(", ")}`;
    case "number":
      return `a number from ${key.from} to ${key.to}, without a unit`;
    case "text":
      return `a text of at most ${key.longest} characters`;
    case "choice":
      return `one of ${names(key.options)}`;
    case "flag":
      return "`true` or `false`";
    case "list":
      return `a list: ${key.says}`;
    case "pair":
      return `two values in brackets: ${key.says}`;
    case "record":
      return key.inline === undefined
        ? `the keys ${names(key.keys)}`
        : `\`${key.inline.example}\`, or the keys ${names(key.keys)}`;
    case "oneOf":
      return `${key.words === undefined ? "" : `one of ${names(key.words)}, or `}one of ${names(key.cases)} with its size`;
  }
}

/** An example to start from, marked as a guess so that it is seen as one. */
export function exampleRemedy(path: string, key: Key): readonly Remedy[] {
  const name = path.slice(path.lastIndexOf(".") + 1);
  if (isQuantityKey(key)) {
    const example = readQuantity(key.example ?? dimensions[key.dimension].example, { dimension: key.dimension });
    const text = "quantity" in example ? `${example.quantity.text.replace(/\s*\([a-z]+\)$/, "")} (guessed)` : undefined;
    return text === undefined
      ? []
      : [{ says: `${name}: ${text}, and put your own value there`, edits: [{ path, value: text }] }];
  }
  if (key.kind === "count" && key.only?.length === 1) return [setTo(path, String(key.only[0]))];
  if (key.kind === "choice")
    return Object.entries(key.options).map(([word, says]) => ({
      says: `${name}: ${word} (${says})`,
      edits: [{ path, value: word }],
    }));
  return [];
}

/** The remedy that writes `value` at `path`. */
export function setTo(path: string, value: string): Remedy {
  return { says: `${path.slice(path.lastIndexOf(".") + 1)}: ${value}`, edits: [{ path, value }] };
}

/** A text of the file, short enough for a message. */
export function clip(text: string): string {
  const line = text.replaceAll(/\s+/g, " ").trim();
  return line.length > 60 ? `${line.slice(0, 57)}…` : line;
}

/** Limits of a quantity, both of which may be reached. */
export function limitsOf(key: QuantityKey): { from: Quantity; to: Quantity } {
  const usual = usualLimits[key.dimension];
  return { from: quantityOf(key.from ?? usual.from, key), to: quantityOf(key.to ?? usual.to, key) };
}

/** A quantity that the keys themselves state; a mistake there is ours and fails at once. */
export function quantityOf(text: string, key: QuantityKey): Quantity {
  const reading = readQuantity(text, { dimension: key.dimension });
  if ("problem" in reading) throw new TypeError(`the keys state \`${text}\`: ${reading.problem.what}`);
  return reading.quantity;
}

/** Paths of the records that have a key called `name`; list items as `[]`. */
export function homesOf(name: string): readonly string[] {
  return homesIn(coilKey, { name, path: "" });
}

function homesIn(key: Key, { name, path }: { name: string; path: string }): readonly string[] {
  if (isQuantityKey(key)) return [];
  const below = (record: Readonly<Record<string, Key>>): readonly string[] =>
    Object.entries(record).flatMap(([step, inner]) =>
      homesIn(inner, { name, path: path === "" ? step : `${path}.${step}` }),
    );
  switch (key.kind) {
    case "record":
      return [...(path !== "" && Object.hasOwn(key.keys, name) ? [path] : []), ...below(key.keys)];
    case "oneOf":
      return below(key.cases);
    case "list":
      return homesIn(key.of, { name, path: `${path}[]` });
    default:
      return [];
  }
}
