import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { editCoil, formatCoil, type MigrationStep, migrateCoil, readCoil } from "../../src/readers/coil-file.ts";

const names = ["thimble", "inkwell", "belfry"];
const read = (name: string) => readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");
function formatted(text: string): string {
  const done = formatCoil(text);
  if ("findings" in done) throw new Error(done.findings[0]?.what);
  return done.text;
}

describe("formatCoil", () => {
  it.each(names)("%s is in canonical spacing", (name) => expect(formatted(read(name))).toBe(read(name)));

  const untidy = `# head
coilwright:   1
name: 'A  b'      # kept
secondary:

    # about the former
    former: {outerDiameter: 110mm±0.3mm(measured)}
    wire:   AWG28
    turns:    1000
    length: "400mm"
    baseHeight: 180   mm   # low


topload:
- sphere: {diameter: 60mm,height: 3/4in}
aim: {streamer: 1 1/2  in+/-5%}
# tail
`;
  it("sets spaces, keeps comments, quotes and order", () => {
    expect(formatted(untidy)).toBe(`# head
coilwright: 1
name: 'A  b'                       # kept
secondary:

  # about the former
  former: { outerDiameter: 110 mm ± 0.3 mm (measured) }
  wire: AWG 28
  turns: 1000
  length: "400 mm"
  baseHeight: 180 mm               # low

topload:
  - sphere: { diameter: 60 mm, height: 3/4 in }
aim: { streamer: 1 1/2 in ± 5 % }

# tail
`);
  });

  // law: idempotent, and every value says what it said
  it("is idempotent and changes no value", () => {
    for (const text of [untidy, untidy.replaceAll("\n", "\r\n"), ...names.map(read)]) {
      const once = formatted(text);
      expect(formatted(once)).toBe(once);
      expect(readCoil(once).coil).toEqual(readCoil(text).coil);
    }
  });

  it("keeps carriage returns", () =>
    expect(formatted("coilwright:  1\r\nname: x\r\n")).toBe("coilwright: 1\r\nname: x\r\n"));
  it("leaves alone what has invisible line breaks in it", () => {
    expect(formatCoil("coilwright: 1\nname: x # a\u2028b\n")).toMatchObject({
      findings: [{ rule: "cannot-format", place: { line: 2, column: 12 } }],
    });
  });
  it("leaves alone what it cannot read", () =>
    expect(formatCoil("a: [\n")).toMatchObject({ findings: [{ rule: "not-yaml" }] }));
});

describe("migrateCoil", () => {
  const steps: MigrationStep[] = [
    { from: 1, says: "the aim is called goal", apply: (text) => ({ text: text.replace(/^aim:/m, "goal:") }) },
    {
      from: 2,
      says: "the name is in capitals",
      apply: (text) => ({ text: text.replace(/^name: .*/m, (line) => line.toUpperCase().replace("NAME", "name")) }),
    },
  ];
  it("leaves a file of the newest format as it is", () => {
    expect(migrateCoil(read("inkwell"))).toEqual({ text: read("inkwell"), from: 1, to: 1, done: [] });
  });
  it("goes step by step and keeps comments", () => {
    const done = migrateCoil("# c\ncoilwright: 1   # format\nname: a\naim: { ratio: 0.9 }\n", { steps, to: 3 });
    expect(done).toEqual({
      text: "# c\ncoilwright: 3   # format\nname: A\ngoal: { ratio: 0.9 }\n",
      from: 1,
      to: 3,
      done: ["the aim is called goal", "the name is in capitals"],
    });
  });
  it.each([
    ["a format that does not exist yet", "coilwright: 2\n", {}],
    ["no format", "name: x\n", {}],
    ["a gap in the table", "coilwright: 1\n", { steps: steps.slice(1), to: 3 }],
    ["a file that is not YAML", "a: [\n", {}],
    [
      "a step that fails",
      "coilwright: 1\n",
      {
        steps: [{ from: 1, says: "", apply: (text: string) => editCoil(text, [{ path: "nothing", value: "1" }]) }],
        to: 2,
      },
    ],
  ])("refuses %s", (_, text, options) => {
    const done = migrateCoil(text, options);
    expect("findings" in done && done.findings[0]?.place?.line).toBe(1);
  });
});

describe("an alias whose anchor is not there", () => {
  // the YAML library throws when it writes one: found by mutants of the examples
  it("is told with its place", () => {
    const made = formatCoil("coilwright: 1\nname: A\n<<: *nope\n");
    expect("findings" in made && made.findings[0]).toMatchObject({
      rule: "cannot-format",
      place: { line: 3, column: 5 },
    });
  });
});
