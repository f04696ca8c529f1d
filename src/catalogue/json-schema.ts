/** A JSON Schema (draft 2020-12) of a record of keys, for the completion and marks of editors. The reader itself does not use it. */
import { type Dimension, dimensions } from "../units/dimension.ts";
import { unitSpellings } from "../units/unit.ts";
import { isQuantityKey, type Key, type KeyRecord, type RecordKey } from "./keys.ts";

export type JsonSchema = { readonly [name: string]: unknown };

/**
 * The schema of `root`. It accepts every file that the reader accepts, and some that the reader refuses: limits of quantities and what keys
 * say together are beyond it.
 */
export function jsonSchemaOf(root: RecordKey, { title }: { title: string }): JsonSchema {
  const used = new Set<Dimension>();
  const schema = schemaOf(root, used);
  const definitions = Object.fromEntries([...used].sort().map((dimension) => [dimension, quantitySchema(dimension)]));
  return { $schema: "https://json-schema.org/draft/2020-12/schema", title, ...schema, $defs: definitions };
}

function schemaOf(key: Key, used: Set<Dimension>): JsonSchema {
  const description = describe(key);
  if (isQuantityKey(key)) {
    used.add(key.dimension);
    return {
      description,
      $ref: `#/$defs/${key.dimension}`,
      examples: [key.example ?? dimensions[key.dimension].example],
      ...defaultOf(key.default),
    };
  }
  switch (key.kind) {
    case "count":
      return key.only === undefined
        ? { description, type: "integer", minimum: key.from, maximum: key.to, ...defaultOf(key.default) }
        : { description, enum: key.only, ...defaultOf(key.default) };
    case "number":
      return { description, type: "number", minimum: key.from, maximum: key.to, ...defaultOf(key.default) };
    case "text":
      return { description, type: ["string", "number"], maxLength: key.longest, ...defaultOf(key.default) };
    case "choice":
      return { description, enum: Object.keys(key.options), ...defaultOf(key.default) };
    case "flag":
      return { description, type: "boolean", ...defaultOf(key.default) };
    case "list":
      return {
        description,
        type: "array",
        items: schemaOf(key.of, used),
        minItems: key.fewest ?? 0,
        maxItems: key.most,
        ...defaultOf(key.default),
      };
    case "pair":
      return {
        description,
        type: "array",
        prefixItems: key.of.map((each) => schemaOf(each, used)),
        minItems: 2,
        maxItems: 2,
      };
    case "record":
      return recordSchema(key, description, used);
    case "oneOf": {
      const cases = Object.entries(key.cases).map(([name, inner]) => ({
        type: "object",
        properties: { [name]: schemaOf(inner, used) },
        required: [name],
        additionalProperties: false,
      }));
      const words = key.words === undefined ? [] : [{ enum: Object.keys(key.words) }];
      return { description, anyOf: [...words, ...cases] };
    }
  }
}

function recordSchema(key: RecordKey, description: string, used: Set<Dimension>): JsonSchema {
  const map = {
    type: "object",
    properties: { ...propertiesOf(key.keys, used), ...alsoProperties(key, used) },
    required: Object.entries(key.keys)
      .filter(([name, inner]) => isRequired(inner) && !Object.values(key.also ?? {}).includes(name))
      .map(([name]) => name),
    additionalProperties: false,
  };
  if (key.inline === undefined) return { description, ...map };
  return { description, anyOf: [{ type: "string", examples: [key.inline.example] }, map] };
}

function propertiesOf(keys: KeyRecord, used: Set<Dimension>): JsonSchema {
  return Object.fromEntries(Object.entries(keys).map(([name, key]) => [name, schemaOf(key, used)]));
}

function alsoProperties(key: RecordKey, used: Set<Dimension>): JsonSchema {
  const found: Record<string, unknown> = {};
  for (const [also, into] of Object.entries(key.also ?? {})) {
    const target = key.keys[into];
    if (target !== undefined && !isQuantityKey(target) && target.kind === "oneOf") {
      const inner = target.cases[also];
      if (inner !== undefined) found[also] = schemaOf(inner, used);
    }
  }
  return found;
}

function isRequired(key: Key): boolean {
  return "required" in key && key.required === true;
}

function describe(key: Key): string {
  if (isQuantityKey(key) || key.kind === "number") {
    if (key.derived !== undefined) return `${key.says} (default: ${key.derived.says})`;
  }
  if (!isQuantityKey(key) && key.kind === "choice")
    return `${key.says}: ${Object.entries(key.options)
      .map(([word, says]) => `${word}, ${says}`)
      .join("; ")}`;
  return key.says;
}

function defaultOf(value: unknown): JsonSchema {
  return value === undefined ? {} : { default: value };
}

/** A pattern for editors: number, unit, tolerance, origin. Bare numbers only where a ratio is meant. */
function quantitySchema(dimension: Dimension): JsonSchema {
  const { called, example } = dimensions[dimension];
  const units = unitSpellings(dimension)
    .map((unit) => unit.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"))
    .sort((a, b) => b.length - a.length);
  const number = "[+\\-\\u2212]?(\\d+\\s+\\d+/\\d+|\\d+\\s*/\\s*\\d+|(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d+)?)";
  const gauge = dimension === "length" ? "|(AWG|awg)\\s*#?\\s*(\\d+|\\d/0)|(\\d+|\\d/0)\\s*(AWG|awg)" : "";
  const amount =
    dimension === "ratio" ? `${number}(\\s*(${units.join("|")}))?` : `(${number}\\s*(${units.join("|")})${gauge})`;
  const pattern = `^\\s*${amount}\\s*((±|\\+\\s?/\\s?[-\\u2212]|\\+[-\\u2212])[^()]+)?(\\(\\s*(measured|datasheet|drawn|guessed)\\s*\\))?\\s*$`;
  return { title: called, type: dimension === "ratio" ? ["string", "number"] : "string", pattern, examples: [example] };
}
