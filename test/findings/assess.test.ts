import { describe, expect, it } from "vitest";
import { assess } from "../../src/findings/index.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { editedText, quietSolution } from "./changed.ts";
import { quietCoil } from "./quiet-coil.ts";

const troubled = editedText(quietCoil, {
  "primary.strikeRing.earthed": "false",
  "interrupter.limits": undefined,
  "secondary.coating.thickness": "0.05 mm",
  "site.people": "[]",
});

// law: order and place of findings
describe("assess", () => {
  it("puts the worst first, then goes by line", () => {
    const found = assess({ file: readCoil(troubled) });
    expect(found.map(({ severity, rule }) => `${severity} ${rule}`)).toEqual([
      "stop strike-ring-not-earthed",
      "fix interrupter-limits-missing",
      "look nobody-listed",
      "look coating-thin",
    ]);
  });

  it("finds each place in the text, and the section where the key itself is not written", () => {
    const file = readCoil(editedText(quietCoil, { "tank.bank.voltage": undefined }));
    const [found] = assess({ file, solution: { ...quietSolution(), coil: file.coil! } });
    expect(found).toMatchObject({ rule: "bank-rating-missing", path: "tank.bank" });
    expect(file.text.split("\n")[found!.place!.line - 1]).toContain("bank:");
  });

  it("offers no edit that the file could not take, and something else instead", () => {
    const file = readCoil(editedText(quietCoil, { "feedback.overcurrent": "0.21 A", "bridge.switch.pulse": "0.1 A" }));
    const [found] = assess({ file, solution: { ...quietSolution(), coil: file.coil! } }).filter(
      ({ rule }) => rule === "overcurrent-above-switch",
    );
    // nine tenths of 0.1 A lie below the least that the key takes
    expect(found!.remedies.map(({ edits }) => edits)).toEqual([[]]);
    expect(found!.remedies[0]!.says).toContain("out by a power of ten");
  });

  it("passes on what the reader found, and asks no rule where there is no coil", () => {
    const file = readCoil("coilwright: 1\nsecondary: { turns: many }\n");
    expect(file.coil).toBeUndefined();
    expect(assess({ file })).toHaveLength(file.findings.length);
  });

  it("asks only the rules that need no figure where nothing was solved", () => {
    const file = readCoil(editedText(quietCoil, { "primary.tap": "4" }));
    expect(assess({ file })).toEqual([]);
  });
});
