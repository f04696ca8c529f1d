import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Edit } from "../../src/catalogue/finding.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";

const names = ["thimble", "inkwell", "belfry"] as const;
const texts = names.map((name) => readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8"));
const table = readFileSync(new URL("./table-coil.yaml", import.meta.url), "utf8");

/** Each law is tried on one file: they have all sections, and trying all three on all files tells no more. */
const only = (name: (typeof names)[number]) => [[name, texts[names.indexOf(name)] ?? ""] as const];

function edited(text: string, ...edits: Edit[]): string {
  const done = editCoil(text, edits);
  if ("findings" in done) throw new Error(done.findings.map((f) => f.what).join("; "));
  return done.text;
}
/** Lines that differ, as `-old` and `+new`, without what stayed. */
function changes(before: string, after: string): string[] {
  const [a, b] = [before.split("\n"), after.split("\n")];
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return [...a.slice(start, a.length - end).map((l) => `-${l}`), ...b.slice(start, b.length - end).map((l) => `+${l}`)];
}

describe("editCoil", () => {
  // law: writing what is already there changes nothing, byte for byte
  it.each(only("thimble"))("leaves %s as it is when every value is written again", (_, text) => {
    const { provenances } = readCoil(text);
    let count = 0;
    for (const [path, { text: written }] of provenances) {
      if (written === undefined) continue;
      expect(edited(text, { path, value: written })).toBe(text);
      count++;
    }
    expect(count).toBeGreaterThan(70);
  });

  // law: one edit of one value changes its own line and no other, and is read back
  it.each(only("belfry"))("changes one line of %s for one value", (_, text) => {
    const { provenances } = readCoil(text);
    for (const [path, { text: written, dimension }] of provenances) {
      if (written === undefined || ["choice", "flag", "text", "count", "number"].includes(dimension)) continue;
      const value = written.replace(/^[\d.]+/, (n) => String(Number((Number(n) * 1.003).toPrecision(6))));
      const after = edited(text, { path, value });
      expect(changes(text, after).length, path).toBe(value === written ? 0 : 2);
      expect(readCoil(after).provenances.get(path)?.text, path).toBe(value);
    }
  });

  // law: taking a key out and reading again gives the default or nothing for it, and leaves all others
  it.each(only("inkwell"))("takes every key of %s out without touching the others", (_, text) => {
    const { provenances } = readCoil(text);
    for (const [path, { text: written }] of provenances) {
      const inLine = /mains\.|trace\.|ceiling\.height|wall\.radius|thermal\./.test(path);
      if (written === undefined || inLine || path === "feedback.sense") continue;
      const after = edited(text, { path, value: undefined });
      const again = readCoil(after).provenances;
      expect(again.get(path)?.text, path).toBeUndefined();
      const touched = [...provenances].filter(
        ([other, { text: kept }]) => other !== path && kept !== undefined && again.get(other)?.text !== kept,
      );
      expect(/\.\d+/.test(path) ? [] : touched, path).toEqual([]);
    }
  });

  const cases: [string, Edit[], string[]][] = [
    [
      "a value keeps its comment",
      [{ path: "secondary.length", value: "410 mm" }],
      [
        "-  length: 402 mm ± 1 mm (measured) # first turn's centre to last turn's centre plus one pitch",
        "+  length: 410 mm # first turn's centre to last turn's centre plus one pitch",
      ],
    ],
    [
      "a value in braces",
      [{ path: "secondary.wire.overall", value: "0.34 mm (measured)" }],
      [
        "-  wire: { bare: 0.3 mm, overall: 0.335 mm (datasheet) }   # or: wire: AWG 28",
        "+  wire: { bare: 0.3 mm, overall: 0.34 mm (measured) }   # or: wire: AWG 28",
      ],
    ],
    [
      "a record becomes one line",
      [{ path: "secondary.wire", value: "AWG 28" }],
      [
        "-  wire: { bare: 0.3 mm, overall: 0.335 mm (datasheet) }   # or: wire: AWG 28",
        "+  wire: AWG 28   # or: wire: AWG 28",
      ],
    ],
    [
      "one part of a value on one line",
      [{ path: "supply.mains.frequency", value: "60 Hz" }],
      ["-  mains: 230 V 50 Hz", "+  mains: 230 V 60 Hz"],
    ],
    [
      "a one-line record that grows a key",
      [{ path: "site.wall.height", value: "2.2 m" }],
      [
        "-  wall: 3.4 m                      # nearest wall, modelled as a round room of that radius",
        "+  wall: { radius: 3.4 m, height: 2.2 m }                      # nearest wall, modelled as a round room of that radius",
      ],
    ],
    [
      "a one-line record by its own key",
      [{ path: "site.ceiling.height", value: "3 m" }],
      ["-  ceiling: 2.8 m", "+  ceiling: 3 m"],
    ],
    [
      "a missing key, in the order of the manual",
      [{ path: "primary.layers.count", value: "2" }],
      ["+  layers: { count: 2 }"],
    ],
    [
      "a missing key in braces, in the order of the manual",
      [
        { path: "topload.0.toroid", value: "{ outerDiameter: 300 mm, height: 640 mm }" },
        { path: "topload.0.toroid.tubeDiameter", value: "80 mm" },
      ],
      [
        "-  - toroid: { outerDiameter: 300 mm, tubeDiameter: 76 mm, height: 640 mm }   # height of its centre plane",
        "+  - toroid: { outerDiameter: 300 mm, tubeDiameter: 80 mm, height: 640 mm }   # height of its centre plane",
      ],
    ],
    [
      "an item at the end of a list",
      [{ path: "topload.1.sphere", value: "{ diameter: 40 mm, height: 720 mm }" }],
      ["+  - { sphere: { diameter: 40 mm, height: 720 mm } }"],
    ],
    [
      "an item of a list goes",
      [{ path: "site.objects.0", value: undefined }],
      [
        "-  objects:",
        "-    - { kind: rod, at: 0.95 m, height: 1.05 m, diameter: 12 mm, earthed: true }",
        "+  objects: []",
      ],
    ],
    [
      "a whole section goes",
      [{ path: "aim", value: undefined }],
      [
        "-aim: { streamer: 500 mm }          # length of the streamer that loads the secondary when it should be in tune",
      ],
    ],
    [
      "one aim takes the place of the other",
      [{ path: "aim.ratio", value: "0.95" }],
      [
        "-aim: { streamer: 500 mm }          # length of the streamer that loads the secondary when it should be in tune",
        "+aim: { ratio: 0.95 }          # length of the streamer that loads the secondary when it should be in tune",
      ],
    ],
    [
      "a word gives way to a map",
      [{ path: "feedback.sense.fixedFrequency", value: "210 kHz" }],
      ["-  sense: primaryCurrent", "+  sense: { fixedFrequency: 210 kHz }"],
    ],
    [
      "a name with a colon is put in quotes",
      [{ path: "name", value: "Ink: well" }],
      ["-name: Tabletop", '+name: "Ink: well"'],
    ],
    ["a name with a hash too", [{ path: "name", value: "Ink #2" }], ["-name: Tabletop", '+name: "Ink #2"']],
    [
      "a block of lines gives way to one line",
      [{ path: "interrupter", value: "{ onTime: 90 µs, rate: 100 Hz }" }],
      [
        "-interrupter:",
        "-  onTime: 110 µs",
        "-  rate: 180 Hz",
        "-  limits: { onTime: 150 µs, duty: 4 %, rate: 1.2 kHz, gap: 250 µs }",
        "+interrupter: { onTime: 90 µs, rate: 100 Hz }",
      ],
    ],
  ];
  it.each(cases)("%s", (_, edits, expected) => expect(changes(table, edited(table, ...edits))).toEqual(expected));

  // law: a comment changes nothing that is read, and nothing that was commented is lost
  describe("a comment", () => {
    const comment = "from 2 records, 2026-11-25: 410 mm, drawn 402 mm";
    it("stands behind what is commented there already", () => {
      expect(changes(table, edited(table, { path: "secondary.length", value: "410 mm", comment }))).toEqual([
        "-  length: 402 mm ± 1 mm (measured) # first turn's centre to last turn's centre plus one pitch",
        `+  length: 410 mm # first turn's centre to last turn's centre plus one pitch; ${comment}`,
      ]);
    });
    it("names its key where several values share the line", () => {
      expect(
        changes(
          table,
          edited(
            table,
            { path: "secondary.wire.bare", value: "0.31 mm", comment: "from 1 record: 0.31 mm" },
            { path: "supply.mains.frequency", value: "60 Hz", comment: "read off" },
          ),
        ).filter((line) => (line.startsWith("+") && line.includes("from 1")) || line.includes("read off")),
      ).toEqual([
        "+  wire: { bare: 0.31 mm, overall: 0.335 mm (datasheet) }   # or: wire: AWG 28; bare from 1 record: 0.31 mm",
        "+  mains: 230 V 60 Hz  # frequency read off",
      ]);
    });
    it("begins one on a bare line, is left out of JSON, and takes no hash in quotes for a comment", () => {
      const text = 'coilwright: 1\r\nprimary: { tap: 6, note: "a # b" }\r\nsecondary:\r\n  turns: 900\r\n';
      expect(edited(text, { path: "secondary.turns", value: "901", comment: "one\nmore" })).toBe(
        text.replace("turns: 900", "turns: 901  # one more"),
      );
      expect(edited(text, { path: "primary.tap", value: "6.1", comment: "set" })).toBe(
        text.replace('tap: 6, note: "a # b" }', 'tap: 6.1, note: "a # b" }  # tap set'),
      );
      expect(edited('{"secondary": {"turns": 9}}', { path: "secondary.turns", value: "12", comment: "x" })).toBe(
        '{"secondary": {"turns": 12}}',
      );
    });
  });

  it("creates a section with all its parents", () => {
    const short = "coilwright: 1\nsecondary:\n  turns: 900\n";
    expect(
      edited(
        short,
        { path: "primary.strikeRing.height", value: "200 mm" },
        { path: "primary.turns", value: "7" },
        { path: "site.people.0.at", value: "3 m" },
      ),
    ).toBe(
      "coilwright: 1\nsite: { people: [ { at: 3 m } ] }\nsecondary:\n  turns: 900\nprimary: { turns: 7, strikeRing: { height: 200 mm } }\n",
    );
    expect(edited("coilwright: 1\nsecondary:\n", { path: "secondary.turns", value: "900" })).toBe(
      "coilwright: 1\nsecondary: { turns: 900 }\n",
    );
  });

  it("keeps carriage returns, a missing last line break, quotes and JSON", () => {
    expect(
      edited(
        "coilwright: 1\r\nname: 'A b'\r\nsecondary:\r\n  turns: 9\r\n",
        { path: "name", value: "C" },
        { path: "secondary.length", value: "4 mm" },
      ),
    ).toBe("coilwright: 1\r\nname: 'C'\r\nsecondary:\r\n  turns: 9\r\n  length: 4 mm\r\n");
    expect(edited("coilwright: 1\nname: A", { path: "aim.ratio", value: "0.9" })).toBe(
      "coilwright: 1\nname: A\naim: { ratio: 0.9 }",
    );
    expect(
      edited(
        '{"coilwright": 1, "secondary": {"length": "4 mm"}}',
        { path: "secondary.length", value: "5 mm" },
        { path: "secondary.turns", value: "12" },
        { path: "name", value: "x" },
      ),
    ).toBe('{"coilwright": 1, "name": "x", "secondary": {"turns": 12, "length": "5 mm"}}');
  });

  it("follows the second spelling of a fixed frequency", () => {
    const text = "coilwright: 1\nfeedback:\n  fixedFrequency: 210 kHz\n  delay: 1 µs\n";
    expect(edited(text, { path: "feedback.sense.fixedFrequency", value: "220 kHz" })).toContain(
      "  fixedFrequency: 220 kHz\n",
    );
    expect(edited(text, { path: "feedback.sense", value: "primaryCurrent" })).toBe(
      "coilwright: 1\nfeedback:\n  sense: primaryCurrent\n  delay: 1 µs\n",
    );
  });

  const refusals: [string, string, Edit][] = [
    ["an unknown key", table, { path: "secondary.colour", value: "red" }],
    ["the whole file", table, { path: "", value: "x" }],
    ["a value over two lines", table, { path: "secondary.turns", value: "1\n2" }],
    ["a record that is not one", table, { path: "secondary.former", value: "{ a: " }],
    [
      "an item beyond the end of a list",
      table,
      { path: "topload.4", value: "{ sphere: { diameter: 1 mm, height: 2 m } }" },
    ],
    ["removal of what is not there", table, { path: "secondary.colour", value: undefined }],
    ["removal of half a value on one line", table, { path: "supply.mains.frequency", value: undefined }],
    ["a file that is not YAML", "a: [1\n", { path: "name", value: "x" }],
    ["an empty value", table, { path: "name", value: " " }],
  ];
  it.each(refusals)("refuses %s with a placed finding", (_, text, edit) => {
    const done = editCoil(text, [edit]);
    if (!("findings" in done)) throw new Error(`edited: ${done.text.slice(0, 80)}`);
    expect(done.findings[0]?.place?.line).toBeGreaterThan(0);
    expect(done.findings[0]?.what).not.toBe("");
  });

  it("does all edits or none", () => {
    expect(
      "findings" in
        editCoil(table, [
          { path: "name", value: "x" },
          { path: "nothing", value: "y" },
        ]),
    ).toBe(true);
  });
});
