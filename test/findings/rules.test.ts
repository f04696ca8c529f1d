import { describe, expect, it } from "vitest";
import { sources } from "../../src/catalogue/index.ts";
import { assess, rules } from "../../src/findings/index.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import { burstCases } from "./burst-cases.ts";
import { type Change, cases } from "./cases.ts";
import { changed, changedDriver, quietBurst, quietSolution, solutionOf, studied } from "./changed.ts";
import { quietCoil } from "./quiet-coil.ts";

const all = { ...cases, ...burstCases };
const of = (id: string, change: Change) => (id in burstCases ? changedDriver(change) : changed(change));

const permission = /\b(safe|safely|safety|allowed|permitted|harmless|compliant|no danger)\b/i;

describe("the rules", () => {
  // law: the list and the cases name the same rules, once each
  it("each have a hit and a miss", () => {
    expect([...new Set(rules.map(({ id }) => id))].sort()).toEqual(Object.keys(all).sort());
    expect(rules).toHaveLength(Object.keys(all).length);
    expect(Object.keys(burstCases).length).toBeGreaterThanOrEqual(35);
  });

  // law: the quiet coil is the ground of every case, so it must be quiet
  it("have nothing to say about the quiet coil", () => {
    expect(assess({ file: readCoil(quietCoil), solution: quietSolution() })).toEqual([]);
    expect(assess(quietBurst())).toEqual([]);
  });

  // law: severity, place, evidence and words of every rule, on the coil that it is made for
  describe.each(rules.map((rule) => [rule.id, rule] as const))("%s", (id, rule) => {
    const { hit, miss, severity, path, names } = all[id]!;

    it("speaks up where its line is crossed, and says it in the words of the file", () => {
      const { file, ...rest } = of(id, hit);
      const found = assess({ file, ...rest }).filter((finding) => finding.rule === id);
      expect(found.length).toBeGreaterThan(0);
      const finding = found[0]!;
      expect(finding).toMatchObject({ severity, path });
      expect(finding.place?.line).toBeGreaterThan(0);
      expect(finding.what).toContain(names ?? "");
      expect(finding.remedies.length).toBeGreaterThan(0);
      expect(finding.evidence).toContain(path);
      for (const figure of rule.needs) expect(finding.evidence).toContain(figure);
      for (const words of [
        finding.what,
        finding.expected ?? "",
        rule.says,
        ...finding.remedies.map(({ says }) => says),
      ]) {
        expect(words).not.toMatch(permission);
        expect(words).not.toMatch(/NaN|undefined|Infinity|\d\.\d{6}/);
      }
      expect(finding.what).not.toMatch(/\.$/);
      expect(rule.says).toMatch(/\.$/);
      expect(sources.has(rule.source)).toBe(true);
    });

    it("is silent just inside its line", () => {
      const found = assess(of(id, miss)).filter((finding) => finding.rule === id);
      expect(found).toEqual([]);
    });

    it("offers edits that leave a coil, and that clear what they are offered for", () => {
      const { file, ...rest } = of(id, hit);
      const finding = assess({ file, ...rest }).find((one) => one.rule === id)!;
      for (const remedy of finding.remedies.filter(({ edits }) => edits.length > 0)) {
        const edited = editCoil(file.text, remedy.edits);
        expect(edited, remedy.says).toHaveProperty("text");
        const after = readCoil("text" in edited ? edited.text : "");
        expect(after.coil, remedy.says).toBeDefined();
        if (hit.solved) {
          const cleared = assess(studied("text" in edited ? edited.text : ""));
          expect(
            cleared.filter((one) => one.rule === id && one.path === finding.path),
            remedy.says,
          ).toEqual([]);
          continue;
        }
        // Where figures stand in for solved ones an edit cannot move them; the natural coils of remedies.test.ts do that.
        if (hit.figures || hit.detunings || hit.study || rule.needs.length > 0 || id === "primary-near-winding")
          continue;
        const left = assess({ file: after, solution: solutionOf(after, hit) });
        expect(
          left.filter((one) => one.rule === id && one.path === finding.path),
          remedy.says,
        ).toEqual([]);
      }
    });
  });
});
