/** What stands in for a key that the file leaves out. */
import { type Derived, isQuantityKey, type Key } from "../../catalogue/keys.ts";
import { exampleRemedy, expectationOf, quantityOf } from "./expectation.ts";
import { invalid, type Notes } from "./notes.ts";

/** The value of a missing key: its documented default, undefined where it is optional, or a finding where it is required. */
export function fillMissing(
  notes: Notes,
  { key, path, siblings }: { key: Key; path: string; siblings: Readonly<Record<string, unknown>> },
): unknown {
  if ("required" in key && key.required === true) {
    const dot = path.lastIndexOf(".");
    const [parent, name] = dot < 0 ? ["", path] : [path.slice(0, dot), path.slice(dot + 1)];
    return notes.refuse(path, notes.nearestSpan(parent), {
      rule: "missing-key",
      what: `${parent === "" ? "the file" : `\`${parent}\``} has no \`${name}\``,
      expected: `\`${name}\`: ${key.says}; ${expectationOf(key)}`,
      remedies: exampleRemedy(path, key),
    });
  }
  if (isQuantityKey(key)) {
    if (key.derived !== undefined) {
      const value = derive(key.derived, siblings);
      if (value === undefined) return invalid;
      notes.filledQuantity(path, {
        key,
        quantity: { value, dimension: key.dimension, unit: "", text: "", origin: key.derived.origin },
      });
      return value;
    }
    if (key.default === undefined) return undefined;
    const quantity = quantityOf(key.default, key);
    notes.filledQuantity(path, { key, quantity });
    return quantity.value;
  }
  switch (key.kind) {
    case "record": {
      if (key.always !== true) return undefined;
      const values = Object.entries(key.keys).map(
        ([name, inner]) => [name, fillMissing(notes, { key: inner, path: `${path}.${name}`, siblings: {} })] as const,
      );
      return Object.freeze(Object.fromEntries(values.filter(([, value]) => value !== undefined)));
    }
    case "list":
      return key.default === undefined ? undefined : Object.freeze([]);
    case "pair":
    case "oneOf":
      return undefined;
    case "number":
      if (key.derived !== undefined) {
        const value = derive(key.derived, siblings);
        if (value === undefined) return invalid;
        notes.filledFact(path, { dimension: key.kind, origin: key.derived.origin });
        return value;
      }
  }
  if (key.default !== undefined) notes.filledFact(path, { dimension: key.kind, origin: "drawn" });
  return key.default;
}

/** Undefined where the sibling itself could not be read; its own finding says so. */
function derive({ from, by }: Derived, siblings: Readonly<Record<string, unknown>>): number | undefined {
  const sibling = siblings[from];
  return typeof sibling === "number" ? by(sibling) : undefined;
}
