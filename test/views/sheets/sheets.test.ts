import { describe, expect, it } from "vitest";
import { papers, reasonAgainst, type SheetSetting, sheets } from "../../../src/views/sheets/index.ts";
import { overlaps, wordBox, wordsOf } from "./boxes.ts";
import { crowdedSubject, exampleSubject, examples, longNamed } from "./subjects.ts";

const date = "2026-01-31";
const plainSettings: readonly SheetSetting[] = [
  { paper: "a4", lengths: "mm", date },
  { paper: "letter", lengths: "in", date },
];
const longSettings: readonly SheetSetting[] = [
  { paper: "letter", lengths: "mm", date },
  { paper: "a4", lengths: "in", date },
];
const subjects = [...examples, "a crowded floor" as const].flatMap((name) => {
  const plain = name === "a crowded floor" ? crowdedSubject() : exampleSubject(name);
  return [
    { name, subject: plain, settings: plainSettings },
    { name: `${name}, long names`, subject: longNamed(plain), settings: longSettings },
  ];
});

// law: ink of words lies inside the border and on no other word, whatever the names and units; measured with the fonts' own advances
describe.each(subjects)("sheets of $name", ({ subject, settings }) => {
  for (const sheet of sheets) {
    if (reasonAgainst(sheet, subject) !== undefined) continue;
    it.each(settings)(`${sheet.id} keeps its words apart and inside, $paper, $lengths`, (setting) => {
      const pages = sheet.lay(subject, setting);
      expect(pages.length).toBeGreaterThan(0);
      const { width, height } = papers[setting.paper];
      for (const [n, page] of pages.entries()) {
        expect([page.width, page.height].sort()).toEqual([width, height].sort());
        expect(overlaps(page)).toEqual([]);
        const outside = wordsOf(page)
          .map(wordBox)
          .filter(({ left, right, top, bottom }) => {
            const edge = 9e-3;
            return left < edge || right > page.width - edge || top < edge || bottom > page.height - edge;
          });
        expect(outside).toEqual([]);
        const words = wordsOf(page).map(({ text }) => text);
        expect(words).toContain(`${n + 1} of ${pages.length}`);
        expect(words).toContain("2026-01-31");
        const all = words.join(" ");
        expect(all).not.toMatch(/undefined|NaN|Infinity|\[object/);
        // a sign that no font has is set as a question mark
        expect(all).not.toContain("?");
        // no sheet gives leave
        expect(all).not.toMatch(/\b(?:safe|safely|harmless|permitted|allowed)\b/i);
      }
    });
  }
});

describe("the list of sheets", () => {
  // law: names are files and options
  it("has names that are words with hyphens, each once", () => {
    const ids = sheets.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });
  // law: the examples together show every sheet, so that the walk above has seen them all
  it("is shown whole by the examples", () => {
    const shown = sheets.filter((sheet) =>
      examples.some((name) => reasonAgainst(sheet, exampleSubject(name)) === undefined),
    );
    expect(shown.map(({ id }) => id)).toEqual(sheets.map(({ id }) => id));
  });
});
