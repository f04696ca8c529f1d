import { describe, expect, it } from "vitest";
import type { Finding } from "../../../src/catalogue/finding.ts";
import { findingsText, remedyNumbers } from "../../../src/views/text/findings.ts";

const text = `coilwright: 1
secondary:
  turns: 1300
\twire: AWG 28
  length: { a: aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa, b: bbbbbbbbbbbbbbbbbbbbbbb, c: 420 mm, d: dddddd }
`;

const finding = (parts: Partial<Finding>): Finding => ({
  rule: "winding-does-not-fit",
  severity: "fix",
  path: "secondary.turns",
  place: { path: "secondary.turns", line: 3, column: 10, length: 4 },
  what: "1300 turns of 0.352 mm wire need 457.6 mm; the winding is 420 mm long",
  expected: "at most 1193 turns, or a length of at least 457.6 mm",
  evidence: [],
  remedies: [
    { says: "secondary.turns: 1193", edits: [{ path: "secondary.turns", value: "1193" }] },
    { says: "use thinner wire", edits: [] },
  ],
  source: "common-practice",
  ...parts,
});

const page = (...findings: Finding[]) => findingsText({ findings, text, fileName: "lantern.yaml" });

// guard, looked at: the page as a person at the bench reads it
describe("a page of findings", () => {
  it("quotes the line, marks the place, and says what to do", () =>
    expect(page(finding({}))).toBe(`lantern.yaml:3:10  fix  winding-does-not-fit
    3 |   turns: 1300
      |          ^^^^ 1300 turns of 0.352 mm wire need 457.6 mm; the winding is
      |               420 mm long
  expected   at most 1193 turns, or a length of at least 457.6 mm
  you can    1) secondary.turns: 1193
             2) use thinner wire
  apply with coilwright check lantern.yaml --apply winding-does-not-fit.1
  rests on   common practice, no source

1 to fix: it will not work or not last
`));

  it("counts the remedies on through the findings of one rule", () => {
    const two = [finding({}), finding({ rule: "other" }), finding({})];
    expect(remedyNumbers(two)).toEqual([1, 1, 3]);
    expect(page(...two)).toContain("--apply winding-does-not-fit.3");
  });

  it("points at the right column behind a tab", () => {
    const found = page(finding({ place: { path: "secondary.wire", line: 4, column: 8, length: 6 } })).split("\n");
    expect(found[1]).toBe("    4 |  wire: AWG 28");
    expect(found[2]?.slice(0, 22)).toBe("      |        ^^^^^^ ");
  });

  // law: no line of the page is wider than the terminal, and the mark stands under what it marks
  it("shifts a long line so that its place stays in sight", () => {
    const line = text.split("\n")[4]!;
    const column = line.indexOf("420 mm") + 1;
    const found = page(finding({ place: { path: "secondary.length", line: 5, column, length: 6 } })).split("\n");
    for (const each of found) expect([...each].length).toBeLessThanOrEqual(80);
    const [quoted = "", marked = ""] = found.slice(1);
    expect(quoted.slice(marked.indexOf("^"), marked.lastIndexOf("^") + 1)).toBe("420 mm");
  });

  it("names the path where there is no place", () => {
    const { place: _place, ...rest } = finding({});
    expect(page(rest)).toContain("lantern.yaml: secondary.turns  fix  winding-does-not-fit\n  found      1300 turns");
  });

  it("gives no permission where it finds nothing", () =>
    expect(page()).toBe("No rule has anything to say about this coil. That is no permission to switch it on.\n"));

  it("colours words and never only colours", () => {
    const coloured = findingsText({ findings: [finding({ severity: "stop" })], text, fileName: "x", colour: true });
    expect(coloured.replace(/\u001b\[\d+m/g, "")).toBe(
      findingsText({ findings: [finding({ severity: "stop" })], text, fileName: "x" }),
    );
    expect(coloured).toContain("\u001b[31mstop\u001b[39m");
  });

  it("quotes a file name that a shell would take apart", () => {
    const found = findingsText({ findings: [finding({})], text, fileName: "my coil's.yaml" });
    expect(found).toContain(`coilwright check 'my coil'\\''s.yaml' --apply`);
  });
});
