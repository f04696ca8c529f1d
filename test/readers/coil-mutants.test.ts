import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkCoil } from "../../src/description/checks/index.ts";
import { editCoil, formatCoil, migrateCoil, readCoil, resolvePlace } from "../../src/readers/coil-file.ts";

const texts = ["thimble", "inkwell", "belfry"].map((name) =>
  readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8"),
);
const seed = 20260214;

/** Every number in a plain tree. */
function numbersOf(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersOf) : [];
}

/** What must hold of any text whatever: no crash, no number that is not finite, always a placed reason where there is no coil. */
function expectSound(text: string): void {
  const file = readCoil(text);
  const lines = text.split("\n");
  for (const finding of file.findings) {
    expect(finding.what).not.toBe("");
    const place = finding.place;
    if (place === undefined) throw new Error(`${finding.rule} has no place`);
    expect(place.line).toBeGreaterThanOrEqual(1);
    expect(place.line).toBeLessThanOrEqual(lines.length);
    expect(place.column).toBeGreaterThanOrEqual(1);
    expect(place.length).toBeGreaterThanOrEqual(1);
    // A mark may stand just past the end of a line, where something is missing.
    expect(place.column).toBeLessThanOrEqual((lines[place.line - 1] ?? "").length + 2);
  }
  if (file.coil === undefined) expect(file.findings.some((f) => f.severity === "stop")).toBe(true);
  else {
    expect(numbersOf(file.coil).every(Number.isFinite)).toBe(true);
    expect(checkCoil(file.coil).some((c) => c.makesNoCoil)).toBe(false);
  }
  for (const { tolerance } of file.provenances.values())
    if (!(Number.isFinite(tolerance) && tolerance >= 0)) throw new Error(`tolerance ${tolerance}`);
  expect(resolvePlace(file, "secondary.turns").line).toBeGreaterThanOrEqual(1);
}

const pieces = (text: string): string[] => text.split(/(\s+|[{}[\],:#"'&*!|>%@`±()-])/).filter((piece) => piece !== "");
const oddities = [
  "\t",
  "\r",
  "\r\n",
  "\ufeff",
  "\u0000",
  "\u2028",
  "\ud800",
  "é",
  "µ",
  "Ω",
  "∞",
  "١٢",
  "&a ",
  "*a",
  "!!int ",
  "!x ",
  "<<: ",
  "? ",
  "- ",
  ": ",
  "#",
  " #",
  "|",
  ">",
  "%",
  "@",
  "`",
  '"',
  "'",
  "{",
  "}",
  "[",
  "]",
  ",",
  "...",
  "---\n",
  "null",
  "~",
  ".inf",
  "-.inf",
  ".nan",
  "NaN",
  "Infinity",
  "1e999",
  "-1e999",
  "1e-999",
  "0",
  "-0",
  "-1",
  "1/0",
  "0/0",
  "9".repeat(40),
  "0x1F",
  "0o17",
  "1_000",
  "true",
  "__proto__",
  "constructor",
  "toString",
  "hasOwnProperty",
  " mm",
  " nF",
  " V",
  " °C",
  " K",
  " %",
  " uf",
  " furlong",
  "± 5 %",
  "± -5 %",
  "± 1e999 %",
  "(measured)",
  "(guess)",
  "AWG 99",
  "AWG",
  "[[[[[[[[",
  "{{{{{{",
  "a: ".repeat(30),
  "\n\n\n",
  " ".repeat(300),
];

type Mutation = (text: string, at: number, other: number, odd: string) => string;
const mutations: Record<string, Mutation> = {
  "a piece left out": (text, at) =>
    pieces(text)
      .filter((_, i, all) => i !== at % all.length)
      .join(""),
  "a piece doubled": (text, at) =>
    pieces(text)
      .map((piece, i, all) => (i === at % all.length ? piece + piece : piece))
      .join(""),
  "two pieces swapped": (text, at, other) => {
    const all = pieces(text);
    const [i, j] = [at % all.length, other % all.length];
    [all[i], all[j]] = [all[j] ?? "", all[i] ?? ""];
    return all.join("");
  },
  "a piece replaced": (text, at, _, odd) =>
    pieces(text)
      .map((piece, i, all) => (i === at % all.length ? odd : piece))
      .join(""),
  "something put in": (text, at, _, odd) => text.slice(0, at % text.length) + odd + text.slice(at % text.length),
  "cut off": (text, at) => text.slice(0, at % text.length),
  "the head cut off": (text, at) => text.slice(at % text.length),
  "a line left out": (text, at) =>
    text
      .split("\n")
      .filter((_, i, all) => i !== at % all.length)
      .join("\n"),
  "a line moved": (text, at, other) => {
    const lines = text.split("\n");
    const [line] = lines.splice(at % lines.length, 1);
    lines.splice(other % lines.length, 0, line ?? "");
    return lines.join("\n");
  },
  "a number changed": (text, at, other, odd) => {
    const numbers = [...text.matchAll(/(?<=[ {])\d[\d.]*/g)];
    const hit = numbers[at % numbers.length];
    if (hit === undefined) return text;
    const number = other % 3 === 0 ? odd : String(Number(hit[0]) * [0, -1, 1e-6, 0.1, 3, 1e3, 1e9, 1e300][other % 8]!);
    return text.slice(0, hit.index) + number + text.slice(hit.index + hit[0].length);
  },
  "a unit changed": (text, at, _, odd) => {
    const units = [...text.matchAll(/(?<=\d )(mm|m|V|A|nF|µH|mΩ|Ω|µs|ns|Hz|K\/W|°C|%)(?=[ ,\n])/g)];
    const hit = units[at % units.length];
    return hit === undefined ? text : text.slice(0, hit.index) + odd.trim() + text.slice(hit.index + hit[0].length);
  },
};

const mutant = fc
  .record({
    text: fc.constantFrom(...texts),
    steps: fc.array(
      fc.record({
        name: fc.constantFrom(...Object.keys(mutations)),
        at: fc.nat(),
        other: fc.nat(),
        odd: fc.constantFrom(...oddities),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ text, steps }) =>
    steps.reduce((now, { name, at, other, odd }) => (now === "" ? now : mutations[name]!(now, at, other, odd)), text),
  );

describe("mutants of the examples", () => {
  // law: whatever the text, reading neither crashes nor lets a number through that is not finite, and always says where and why
  it("are read or refused, never worse", () => {
    let coils = 0;
    const runs = 900;
    fc.assert(
      fc.property(mutant, (text) => {
        coils += readCoil(text).coil === undefined ? 0 : 1;
        expectSound(text);
      }),
      { seed, numRuns: runs },
    );
    // Both ends of the law are tried: texts that are still coils, and texts that are not.
    expect(coils).toBeGreaterThan(runs / 20);
    expect(coils).toBeLessThan((runs * 9) / 10);
  });

  // law: formatting is idempotent and changes no value, or refuses
  it("are formatted without a change of meaning, or refused", () => {
    fc.assert(
      fc.property(mutant, (text) => {
        const done = formatCoil(text);
        if ("findings" in done) {
          expect(done.findings.length).toBeGreaterThan(0);
          return;
        }
        expect(readCoil(done.text).coil).toEqual(readCoil(text).coil);
        const again = formatCoil(done.text);
        expect("text" in again && again.text).toBe(done.text);
      }),
      { seed, numRuns: 100 },
    );
  });

  // law: every remedy that carries edits is either applied or refused with a reason; it never leaves a text that says something else
  it("take their remedies or refuse them", () => {
    let applied = 0;
    fc.assert(
      fc.property(mutant, (text) => {
        for (const finding of readCoil(text).findings.slice(0, 3)) {
          for (const remedy of finding.remedies.slice(0, 2)) {
            const done = editCoil(text, remedy.edits);
            if ("findings" in done) expect(done.findings[0]?.what).not.toBe("");
            else {
              applied += 1;
              expectSound(done.text);
            }
          }
        }
      }),
      { seed, numRuns: 200 },
    );
    expect(applied).toBeGreaterThan(20);
  });
});

describe("random texts", () => {
  it("are refused with a place", () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: "binary", maxLength: 200 }),
          fc
            .array(fc.constantFrom(...oddities, "coilwright", ": ", "1", "\n", "  ", "secondary"), { maxLength: 40 })
            .map((all) => all.join("")),
        ),
        expectSound,
      ),
      { seed, numRuns: 300 },
    );
  });

  it.each([
    ["brackets", "[".repeat(5000)],
    ["braces with keys", "{a: ".repeat(5000)],
    ["dashes", "- ".repeat(60_000)],
    ["questions", "? ".repeat(60_000)],
    ["stairs", Array.from({ length: 500 }, (_, i) => `${" ".repeat(i)}a:`).join("\n")],
    [
      "aliases",
      `a: &a [x,x,x,x,x,x,x,x,x]\n${Array.from({ length: 9 }, (_, i) => `${"bcdefghij"[i]}: &${"bcdefghij"[i]} [${`*${"abcdefghi"[i]},`.repeat(9)}]`).join("\n")}`,
    ],
    ["many keys", Array.from({ length: 8000 }, (_, i) => `key${i}: 1`).join("\n")],
    ["one key again and again", "coilwright: 1\n".repeat(6000)],
    ["one long word", "x".repeat(130_000)],
    ["many quotes", '"'.repeat(60_000)],
    ["colons", ":".repeat(60_000)],
    ["a long list", `coilwright: 1\ntopload: [ ${"{ sphere: { diameter: 1 mm, height: 1 m } }, ".repeat(2000)} ]`],
  ])("%s take less than two seconds", (_, text) => {
    const start = performance.now();
    expectSound(text);
    expect(performance.now() - start).toBeLessThan(2000);
  });
});

describe("editCoil on anything", () => {
  const path = fc.oneof(
    fc.constantFrom(
      ...[...readCoil(texts[2] ?? "").provenances.keys()],
      "secondary",
      "topload",
      "topload.1",
      "topload.9",
      "site.people.1",
      "primary.strikeRing",
      "aim",
      "aim.streamer",
      "feedback.sense.fixedFrequency",
      "",
    ),
    fc.string({ maxLength: 12 }),
    fc
      .array(fc.constantFrom("secondary", "topload", "0", "7", "toroid", "__proto__", "x y", "site", "people"), {
        maxLength: 4,
      })
      .map((steps) => steps.join(".")),
  );
  const value = fc.oneof(
    fc.constantFrom(
      undefined,
      "1 mm",
      "3",
      "{ a: 1 }",
      "[ 1, 2 ]",
      "{ outerDiameter: 1 m }",
      "a: b",
      "x # y",
      "- a",
      "*a",
      "&a b",
      "!t x",
      "|",
      "'",
      '"a"',
      "a, b",
      "{",
      "°",
    ),
    fc.constantFrom(...oddities),
    fc.string({ maxLength: 12 }),
  );

  // law: the text that comes back holds what was asked for and all the rest; otherwise there are findings
  it("changes what it was asked to and nothing else, or refuses", () => {
    let changed = 0;
    fc.assert(
      fc.property(fc.constantFrom(...texts), path, value, (text, at, to) => {
        const before = readCoil(text).provenances;
        const done = editCoil(text, [{ path: at, value: to }]);
        if ("findings" in done) {
          expect(done.findings[0]?.place?.line).toBeGreaterThanOrEqual(1);
          return;
        }
        changed += done.text === text ? 0 : 1;
        const after = readCoil(done.text);
        const top = at.split(".")[0];
        const lost = [...before].filter(
          ([other, { text: kept }]) =>
            kept !== undefined && other.split(".")[0] !== top && after.provenances.get(other)?.text !== kept,
        );
        // A section that cannot be read any more keeps no provenance; the others must.
        expect(lost).toEqual([]);
      }),
      { seed, numRuns: 300 },
    );
    expect(changed).toBeGreaterThan(60);
  });

  it("never throws when migrating", () => {
    fc.assert(
      fc.property(mutant, (text) => void migrateCoil(text)),
      { seed, numRuns: 100 },
    );
  });
});
