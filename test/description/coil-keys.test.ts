import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { keyRows } from "../../src/catalogue/key-table.ts";
import { type KeyRecord, keyAt, labelOf, type RecordValue } from "../../src/catalogue/keys.ts";
import type { Coil } from "../../src/description/coil.ts";
import { type CoilByKeys, coilKey, coilKeys } from "../../src/description/coil-keys.ts";
import { coilJsonSchema, readCoil } from "../../src/readers/coil-file.ts";

const read = (name: string) => readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
type Deep<T> = T extends number | string | boolean ? T : { [P in keyof T]: Deep<T[P]> };

describe("the type of a coil", () => {
  // law: decided by the compiler: both types are the same to the last key, option and `undefined`
  it("is the one that the keys give", () => {
    const same: Same<Deep<CoilByKeys>, Deep<Coil>> = true;
    const other: Same<Deep<CoilByKeys>, Deep<Omit<Coil, "aim">>> = false;
    const optional: Same<
      RecordValue<{ readonly a: { readonly dimension: "length"; readonly says: "" } }>,
      { readonly a: number }
    > = false;
    expect([same, other, optional]).toEqual([true, false, false]);
  });
});

describe("keyAt", () => {
  it("finds keys of maps, lists, pairs and cases", () => {
    expect(keyAt(coilKey, "topload.3.toroid.height")).toMatchObject({ dimension: "length", required: true });
    expect(keyAt(coilKey, "bridge.switch.thermal.0.1")).toMatchObject({ dimension: "time" });
    expect(keyAt(coilKey, "")).toBe(coilKey);
  });
  it.each([
    "topload.toroid",
    "secondary.turns.x",
    "constructor",
    "__proto__",
    "bridge.switch.thermal.0.2",
    "site..air",
    "topload.-1",
    "aim.toString",
  ])("knows no %s", (path) => expect(keyAt(coilKey, path)).toBeUndefined());
  // law: every number that is read has its key, and the other way about every row of the manual has one
  it("covers every provenance and every row of the manual", () => {
    for (const path of readCoil(read("belfry")).provenances.keys()) expect(keyAt(coilKey, path), path).toBeDefined();
    for (const { path } of keyRows(coilKey)) expect(keyAt(coilKey, path.replaceAll("[]", ".0")), path).toBeDefined();
  });
  it("gives forms their labels", () => {
    const keys: KeyRecord = coilKeys.secondary.keys.former.keys;
    expect(labelOf("outerDiameter", keys["outerDiameter"]!)).toBe("outer diameter");
    expect(labelOf("vce0", { kind: "flag", says: "", label: "knee" })).toBe("knee");
  });
});

describe("coilJsonSchema", () => {
  const schema = coilJsonSchema();
  const valid = (text: string) => violations(parse(text), schema).length === 0;
  // law: the schema takes what the reader takes
  it.each(["thimble", "inkwell", "belfry"])("takes %s", (name) =>
    expect(violations(parse(read(name)), schema)).toEqual([]),
  );
  it("takes short forms and second spellings", () => {
    expect(
      valid(
        "coilwright: 1\nsecondary: { former: { outerDiameter: 3/8 in }, wire: AWG 28, turns: 9, length: 4 mm, baseHeight: 1 1/2 in }\nfeedback: { fixedFrequency: 210 kHz, delay: 1µs }",
      ),
    ).toBe(true);
  });
  const short =
    "coilwright: 1\nsecondary: { former: { outerDiameter: 90 mm }, wire: AWG 28, turns: 900, length: 400 mm, baseHeight: 90 mm }\n";
  it.each([
    ["a wrong unit", short.replace("400 mm", "400 nF")],
    ["a missing unit", short.replace("400 mm", "400")],
    ["an unknown key", `${short}colour: red`],
    ["a missing key", short.replace("turns: 900, ", "")],
    ["a count with a unit", short.replace("900", "900 turns")],
    ["a newer format", short.replace("1\n", "2\n")],
    ["a word that is not one", `${short}supply: { rectifier: tripler }`],
    ["two cases", `${short}aim: { ratio: 0.9, streamer: 1 m }`],
  ])("marks %s", (_, text) => {
    expect(valid(short)).toBe(true);
    expect(valid(text)).toBe(false);
  });
});

/** The part of JSON Schema that the file uses, straight from the words of draft 2020-12. */
function violations(value: unknown, schema: Record<string, unknown>, root = schema, at = ""): string[] {
  const found: string[] = [];
  const say = (ok: boolean, what: string) => void (ok || found.push(`${at}: ${what}`));
  const sub = (v: unknown, s: unknown, path: string) => violations(v, s as Record<string, unknown>, root, path);
  if (typeof schema["$ref"] === "string") {
    const target = (root["$defs"] as Record<string, unknown>)[schema["$ref"].replace("#/$defs/", "")];
    found.push(...sub(value, target, at));
  }
  const type = value === null ? "null" : Array.isArray(value) ? "array" : typeof value;
  if (schema["type"] !== undefined) {
    const types = [schema["type"]].flat() as string[];
    say(types.includes(type) || (types.includes("integer") && Number.isInteger(value)), `is ${type}`);
  }
  if (Array.isArray(schema["enum"])) say(schema["enum"].includes(value), "is not one of the words");
  if (Array.isArray(schema["anyOf"]))
    say(
      schema["anyOf"].some((s) => sub(value, s, at).length === 0),
      "fits none of the forms",
    );
  if (typeof value === "string" && typeof schema["pattern"] === "string")
    say(new RegExp(schema["pattern"], "u").test(value), `does not match: ${value}`);
  if (typeof value === "string" && typeof schema["maxLength"] === "number")
    say(value.length <= schema["maxLength"], "too long");
  if (typeof value === "number" && typeof schema["minimum"] === "number") say(value >= schema["minimum"], "too small");
  if (typeof value === "number" && typeof schema["maximum"] === "number") say(value <= schema["maximum"], "too large");
  if (Array.isArray(value)) {
    if (typeof schema["minItems"] === "number") say(value.length >= schema["minItems"], "too few");
    if (typeof schema["maxItems"] === "number") say(value.length <= schema["maxItems"], "too many");
    value.forEach((item, i) => {
      const prefix = (schema["prefixItems"] as unknown[] | undefined)?.[i] ?? schema["items"];
      if (prefix !== undefined) found.push(...sub(item, prefix, `${at}.${i}`));
    });
  }
  if (type === "object") {
    const properties = (schema["properties"] ?? {}) as Record<string, unknown>;
    for (const name of (schema["required"] as string[] | undefined) ?? [])
      say(Object.hasOwn(value as object, name), `lacks ${name}`);
    for (const [name, inner] of Object.entries(value as object)) {
      if (Object.hasOwn(properties, name)) found.push(...sub(inner, properties[name], `${at}.${name}`));
      else if (schema["additionalProperties"] === false) say(false, `has ${name}`);
    }
  }
  return found;
}
