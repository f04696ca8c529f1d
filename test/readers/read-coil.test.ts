import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/catalogue/finding.ts";
import { editCoil, readCoil, resolvePlace } from "../../src/readers/coil-file.ts";

const read = (name: string) => readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");
const table = readFileSync(new URL("./table-coil.yaml", import.meta.url), "utf8");
const short = `coilwright: 1
secondary:
  former: { outerDiameter: 110 mm }
  wire: AWG 28
  turns: 1000
  length: 400 mm
  baseHeight: 180 mm
`;
/** `line:column+length rule`, in the order of the findings. */
const spots = (findings: readonly Finding[]) =>
  findings.map((f) => `${f.place?.line}:${f.place?.column}+${f.place?.length} ${f.rule}`);
const only = (text: string): Finding => {
  const { findings } = readCoil(text);
  expect(spots(findings)).toHaveLength(1);
  return findings[0] as Finding;
};
/** The text after the first remedy that has edits. */
function remedied(text: string, finding: Finding): string {
  const remedy = finding.remedies.find((r) => r.edits.length > 0);
  if (remedy === undefined) throw new Error(`no remedy for ${finding.rule}`);
  const done = editCoil(text, remedy.edits);
  if ("findings" in done) throw new Error(done.findings[0]?.what);
  return done.text;
}

describe("readCoil on whole files", () => {
  it.each(["thimble", "inkwell", "belfry"])("%s is read without a finding", (name) => {
    const file = readCoil(read(name));
    expect(file.findings).toEqual([]);
    expect(file.coil?.name.toLowerCase()).toBe(name);
  });

  // law: SI values of what the file says, worked out by hand
  it("gives SI numbers, kelvin and radians", () => {
    const coil = readCoil(read("belfry")).coil;
    expect(coil?.site.air).toEqual({ temperature: 291.15, pressure: 98500, humidity: 0.4 });
    expect(coil?.primary?.angle).toBeCloseTo(Math.PI / 9, 12);
    expect(coil?.bridge?.switch.thermal).toEqual([
      [0.012, 0.0015],
      [0.03, 0.025],
      [0.03, 0.09],
    ]);
    expect(coil?.supply?.mains).toEqual({ voltage: 230, frequency: 50 });
    expect(coil?.bridge?.switch.junctionMax).toBeCloseTo(423.15, 9);
    expect(coil?.bridge?.gate.transformer?.coreArea).toBeCloseTo(1.2e-4, 15);
    expect(readCoil(read("thimble")).coil?.primary?.conductor).toEqual({
      trace: { width: 0.0026, thickness: expect.closeTo(0.00007, 12) },
    });
  });

  // law: every default that the manual documents
  it("fills a short file with the documented defaults", () => {
    const { coil, provenances, findings } = readCoil(short);
    expect(findings).toEqual([]);
    expect(coil).toEqual({
      coilwright: 1,
      name: "Unnamed coil",
      topload: [],
      site: { air: { temperature: 293.15, pressure: 101325, humidity: 0.5 }, people: [], objects: [] },
      secondary: {
        former: { outerDiameter: 0.11 },
        turns: 1000,
        length: 0.4,
        baseHeight: 0.18,
        wire: { bare: 0.127e-3 * 92 ** (8 / 39), overall: expect.closeTo(0.3557e-3, 7) },
      },
    });
    expect(provenances.get("secondary.wire.overall")).toMatchObject({
      text: undefined,
      origin: "guessed",
      toleranceFrom: "default",
      dimension: "length",
    });
    expect(provenances.get("site.air.pressure")).toMatchObject({ text: undefined, origin: "guessed" });
  });

  it("fills people, rods, taps, leads, strike ring and feedback", () => {
    const { coil, findings } = readCoil(`${short}site:
  people: [ { at: 3 m, height: 1.7 m } ]
  objects: [ { kind: rod, at: 1 m, height: 1 m, diameter: 12 mm } ]
topload:
  - disc: { diameter: 200 mm, height: 620 mm }
  - cylinder: { diameter: 60 mm, length: 40 mm, height: 660 mm }
primary:
  turns: 6
  firstTurnDiameter: 180 mm
  pitch: 12 mm
  conductor: { wire: 4 mm }
  baseHeight: 170 mm
  strikeRing: { diameter: 420 mm, tube: 8 mm, height: 215 mm }
tank: { bank: { each: 68 nF } }
feedback: { fixedFrequency: 210 kHz, delay: 400 ns }
`);
    expect(findings).toEqual([]);
    expect(coil?.site.people).toEqual([{ at: 3, height: 1.7, radius: 0.15, foot: 0.02 }]);
    expect(coil?.site.objects).toEqual([
      { kind: "rod", at: 1, height: 1, diameter: 0.012, foot: 0.002, earthed: true },
    ]);
    expect(coil?.topload).toMatchObject([{ disc: { thickness: 0.002 } }, { cylinder: { edgeRadius: 0.005 } }]);
    expect(coil?.primary).toMatchObject({
      angle: 0,
      tap: 6,
      layers: { count: 1, connected: "series" },
      strikeRing: { earthed: true, closed: false },
    });
    expect(coil?.tank).toEqual({
      bank: { each: 6.8e-8, series: 1, parallel: 1 },
      leads: { inductance: 3e-7, resistance: 0.005 },
    });
    expect(coil?.feedback).toEqual({ sense: { fixedFrequency: 210000 }, delay: 4e-7, lead: 0 });
  });

  it("keeps tolerance, origin, text and place of each number", () => {
    const { provenances } = readCoil(table);
    expect(provenances.get("secondary.former.outerDiameter")).toEqual({
      text: "110 mm ± 0.3 mm (measured)",
      origin: "measured",
      tolerance: 0.0003,
      toleranceFrom: "written",
      dimension: "length",
      place: { path: "secondary.former.outerDiameter", line: 17, column: 28, length: 26 },
    });
    expect(provenances.get("tank.bank.each")?.tolerance).toBeCloseTo(3.4e-9, 15);
    expect(provenances.get("secondary.turns")).toMatchObject({ text: "1150", tolerance: 0, dimension: "count" });
    expect(provenances.get("supply.mains.frequency")?.place).toMatchObject({ line: 64, column: 16, length: 5 });
    expect(provenances.get("feedback.sense")).toMatchObject({ dimension: "choice", text: "primaryCurrent" });
  });

  it("gives the same coil from JSON, with carriage returns and with a byte order mark", () => {
    const { coil } = readCoil(short);
    const json =
      '{"coilwright": 1, "secondary": {"former": {"outerDiameter": "110 mm"}, "wire": "AWG 28", "turns": 1000, "length": "400 mm", "baseHeight": "180 mm"}}';
    for (const text of [json, short.replaceAll("\n", "\r\n"), `\ufeff${short}`, `# c\n---\n${short}...\n`]) {
      expect(readCoil(text).findings).toEqual([]);
      expect(readCoil(text).coil).toEqual(coil);
    }
  });

  it("is frozen", () => {
    const { coil } = readCoil(table);
    expect(Object.isFrozen(coil)).toBe(true);
    expect(Object.isFrozen(coil?.primary?.strikeRing)).toBe(true);
    expect(Object.isFrozen(coil?.topload)).toBe(true);
  });
});

describe("readCoil on mistakes", () => {
  const cases: [string, string, string, (string | undefined)?][] = [
    ["a wrong unit", short.replace("400 mm", "400 nF"), "6:11+6 wrong-dimension"],
    ["a unit in other letters", short.replace("400 mm", "400 MM"), "6:11+6 unknown-unit", "length: 400 mm"],
    ["a missing unit", short.replace("400 mm", "400"), "6:11+3 no-unit", "length: 400 mm"],
    ["a decimal comma", short.replace("400 mm", "400,5 mm"), "6:11+8 decimal-comma", "length: 400.5 mm"],
    ["a decimal comma in braces", short.replace("AWG 28", "{ bare: 0,315 mm }"), "4:19+6 decimal-comma"],
    ["a value out of its limits", short.replace("400 mm", "400 m"), "6:11+5 out-of-range"],
    ["a negative size", short.replace("400 mm", "-400 mm"), "6:11+7 out-of-range"],
    ["a count with decimals", short.replace("1000", "1000.5"), "5:10+6 not-a-count", "turns: 1001"],
    ["a count with a unit", short.replace("1000", "1000 turns"), "5:10+10 not-a-count", "turns: 1000"],
    ["a count with a thousands comma", short.replace("1000", "1,000"), "5:10+5 not-a-count", "turns: 1000"],
    ["a misspelt key", short.replace("length:", "lenght:"), "6:3+6 unknown-key", "  length: 400 mm"],
    [
      "a colon without a space in braces",
      short.replace("outerDiameter: 110", "outerDiameter:110"),
      "3:13+20 unknown-key",
    ],
    ["an unknown key", `${short}colour: red\n`, "8:1+6 unknown-key"],
    ["a missing key", short.replace("  length: 400 mm\n", ""), "2:1+9 missing-key", "length: 420 mm (guessed)"],
    ["a missing section", "coilwright: 1\n", "1:1+1 missing-key"],
    ["a doubled key", `${short}name: a\nname: b\n`, "9:1+4 duplicate-key"],
    ["an empty value", short.replace("400 mm", ""), "6:3+6 value-missing", "length: 420 mm (guessed)"],
    ["a map where a value belongs", short.replace("400 mm", "{ a: 1 }"), "6:11+8 wrong-kind"],
    ["a value where a map belongs", short.replace("{ outerDiameter: 110 mm }", "110 mm"), "3:11+6 wrong-kind"],
    ["a list without dashes", `${short}topload:\n  sphere: { diameter: 60 mm, height: 700 mm }\n`, "9:3+43 wrong-kind"],
    ["an unknown case", `${short}topload: [ { ball: { diameter: 60 mm, height: 700 mm } } ]\n`, "8:14+4 unknown-key"],
    ["two cases at once", `${short}aim: { ratio: 0.9, streamer: 1 m }\n`, "8:20+8 wrong-count"],
    [
      "a word that is not one",
      `${short}feedback: { sense: primarycurrent, delay: 1 µs }\n`,
      "8:20+14 not-a-choice",
      "sense: primaryCurrent",
    ],
    [
      "a flag that says yes",
      `${short}site: { objects: [ { kind: rod, at: 1 m, height: 1 m, diameter: 9 mm, earthed: yes } ] }\n`,
      "8:80+3 not-a-flag",
      "earthed: true",
    ],
    [
      "half a line of two values",
      `${short}supply: { mains: 230 V, rectifier: bridge, capacitors: { each: 1 mF, voltage: 450 V, esr: 1 mΩ } }\n`,
      "8:18+5 wrong-kind",
    ],
    [
      "the same said twice",
      `${short}feedback: { sense: primaryCurrent, fixedFrequency: 1 MHz, delay: 1 µs }\n`,
      "8:36+14 said-twice",
    ],
    ["an alias", short.replace("110 mm", "&a 110 mm").replace("400 mm", "*a"), "3:31+6 no-aliases"],
    ["a tag", short.replace("400 mm", "!length 400 mm"), "6:19+6 no-tags"],
    ["a newer format", short.replace("coilwright: 1", "coilwright: 2"), "1:13+1 format-newer"],
    ["no format", short.replace("coilwright: 1\n", ""), "1:1+1 missing-key", "coilwright: 1"],
    ["a format that is no number", short.replace("coilwright: 1", "coilwright: one"), "1:13+3 not-a-count", undefined],
    ["nothing at all", "", "1:1+1 file-empty"],
    ["only comments", "# nothing\n", "1:1+1 file-empty"],
    ["a text", "hello\n", "1:1+5 not-a-coil-file"],
    ["a list", "- a\n- b\n", "1:1+3 not-a-coil-file"],
    ["an open bracket", short.replace("110 mm }", "110 mm"), "3:11+1 not-yaml"],
    ["a tab", short.replace("  turns", "\tturns"), "5:1+1 not-yaml"],
    ["a missing space", short.replace("turns: 1000", "turns:1000"), "5:3+10 not-yaml"],
    ["an open quote", short.replace("AWG 28", '"AWG 28'), "7:20+1 not-yaml"],
    ["a second document", `${short}---\na: 1\n`, "8:1+1 second-document"],
    ["too many letters", `#${"x".repeat(140_000)}\n${short}`, "1:1+1 file-too-long"],
    ["too deep", `coilwright: ${"[".repeat(100)}`, "1:53+1 file-too-deep"],
  ];
  it.each(cases)("%s", (_, text, spot, mended) => {
    const file = readCoil(text);
    expect(file.coil).toBeUndefined();
    expect(spots(file.findings)).toContain(spot);
    const finding = file.findings.find((f) => spots([f])[0] === spot) as Finding;
    expect(finding.severity).toBe("stop");
    expect(finding.expected).toBeTruthy();
    if (mended !== undefined) expect(remedied(text, finding)).toContain(mended);
  });

  it("reports all of many problems at once, in the order of the text", () => {
    const text =
      "coilwright: 1\nnaem: x\nsecondary:\n  former: { outerDiameter: 110 nF }\n  wire: 0,3 mm\n  turns: many\n  baseHeight: 180\nprimary: 3\n";
    expect(spots(readCoil(text).findings)).toEqual([
      "2:1+4 unknown-key",
      "3:1+9 missing-key",
      "4:28+6 wrong-dimension",
      "5:9+6 decimal-comma",
      "6:10+4 not-a-count",
      "7:15+3 no-unit",
      "8:10+1 wrong-kind",
    ]);
  });

  it("says what was found and what was expected, in the words of the file", () => {
    expect(only(short.replace("400 mm", "400 nF"))).toMatchObject({
      what: "`400 nF` is a capacitance, not a length",
      expected: "a length, e.g. `420 mm`",
      path: "secondary.length",
    });
    expect(only(`${short}strikeRing: { tube: 8 mm }\n`).expected).toContain("`strikeRing` is a key of `primary`");
  });

  it("applies the first remedy of every mistake that has one, and the mistake is gone", () => {
    for (const [name, text] of cases) {
      for (const finding of readCoil(text).findings) {
        if (!finding.remedies.some((r) => r.edits.length > 0)) continue;
        const after = remedied(text, finding);
        expect(
          readCoil(after).findings.some((f) => f.rule === finding.rule && f.path === finding.path),
          `${name}: ${finding.rule}`,
        ).toBe(false);
      }
    }
  });
});

describe("resolvePlace", () => {
  it("finds keys, values and the nearest parent of what is missing", () => {
    const file = readCoil(table);
    expect(resolvePlace(file, "secondary.turns")).toMatchObject({
      path: "secondary.turns",
      line: 19,
      column: 10,
      length: 4,
    });
    expect(resolvePlace(file, "primary")).toMatchObject({ line: 27, column: 1, length: 7 });
    expect(resolvePlace(file, "topload.0.toroid")).toMatchObject({ line: 25, column: 5 });
    expect(resolvePlace(file, "topload.0")).toMatchObject({ line: 25 });
    expect(resolvePlace(file, "primary.layers.gap")).toMatchObject({ path: "primary.layers.gap", line: 27, column: 1 });
    expect(resolvePlace(file, "primary.strikeRing.closed")).toMatchObject({ line: 35, column: 3, length: 10 });
    expect(resolvePlace(file, "no.such.key")).toEqual({ path: "no.such.key", line: 1, column: 1, length: 1 });
    expect(resolvePlace(file, "")).toMatchObject({ line: 1, column: 1 });
  });
});
