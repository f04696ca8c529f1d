/** The plan of the show-day sheet: rings at their radius on paper, a bar that agrees, every mark with its name. */
import { describe, expect, it } from "vitest";
import { type Page, type SheetSetting, type SheetSubject, sheets } from "../../../src/views/sheets/index.ts";
import { standoff } from "../../../src/workbench/standoff.ts";
import { crowdedSubject, exampleSubject } from "./subjects.ts";

const lay = (subject: SheetSubject, setting: Partial<SheetSetting> = {}): readonly Page[] =>
  sheets
    .find(({ id }) => id === "show-day")
    ?.lay(subject, { paper: "a4", lengths: "mm", date: "2026-01-31", ...setting }) ?? [];

const wordsOf = ({ items }: Page) => items.flatMap((item) => (item.kind === "text" ? [item.text] : []));

/** The page with the room, its scale as the title block says it, and the width of what has a role. */
function roomOf(pages: readonly Page[]) {
  const page = pages.find(({ items }) => items.some((item) => item.kind === "path" && item.role === "floor-bar"));
  if (!page) throw new Error("no page has the room");
  const ratio = Number(/^1 : (\d+)$/.exec(wordsOf(page).find((text) => text.startsWith("1 : ")) ?? "")?.[1]);
  const width = (role: string): number => {
    const item = page.items.find((one) => one.kind === "path" && one.role === role);
    const xs = item?.kind === "path" ? item.segments.flatMap((one) => (one.kind === "close" ? [] : [one.to.x])) : [];
    return Math.max(...xs) - Math.min(...xs);
  };
  return { page, ratio, width };
}

const standoffOf = (subject: SheetSubject) =>
  standoff({ coil: subject.coil, solution: subject.solution, bursts: subject });

describe.each([
  ["a4", "mm"],
  ["letter", "in"],
] as const)("the room on %s, %s", (paper, lengths) => {
  // law: a length of the floor over the scale is its length on paper
  it.each(["inkwell", "thimble", "belfry"] as const)("has the rings of %s at their radius", (name) => {
    const subject = exampleSubject(name);
    const { ratio, width } = roomOf(lay(subject, { paper, lengths }));
    const { figures, place } = standoffOf(subject);
    const value = (id: string) => figures.get(id)?.value ?? 0;
    expect(width("floor-audience") * ratio).toBeCloseTo(2 * value("standoff.audience"), 9);
    expect(width("floor-reach") * ratio).toBeCloseTo(2 * (place.radius + value("standoff.reach")), 9);
    expect(width("floor-strike") * ratio).toBeCloseTo(2 * (place.radius + value("standoff.strike")), 9);
  });

  it("has a bar whose parts are a round number of metres or feet", () => {
    const { page, ratio, width } = roomOf(lay(crowdedSubject(), { paper, lengths }));
    const part = (width("floor-bar") * ratio) / (lengths === "mm" ? 1 : 0.3048);
    expect([0.1, 0.2, 0.5, 1, 2, 5, 10, 20]).toContain(Number(part.toFixed(6)));
    const end = wordsOf(page).find((text) => /^[\d.]+\s(m|ft)$/.test(text)) ?? "";
    expect(Number.parseFloat(end) / part).toBeCloseTo(Math.round(Number.parseFloat(end) / part), 6);
  });

  it("names each mark of a crowded floor, and says what it is not", () => {
    const { page } = roomOf(lay(crowdedSubject(), { paper, lengths }));
    const words = wordsOf(page);
    for (const name of [
      "line",
      "barrier",
      "strike",
      "reach",
      "operator",
      "second person",
      "breaker",
      "way out",
      "earth, lead",
      "rod, earthed",
      "somebody",
    ])
      expect(words.some((text) => text.startsWith(name))).toBe(true);
    expect(words.join(" ")).toContain("An estimate from this file, no permission");
  });

  it("says one distance of the line in table, plan and list", () => {
    // law: of one number, rounded up once; 6.1 m is 20.01 ft
    const all = lay(crowdedSubject(), { paper, lengths }).flatMap(wordsOf).join("\n").replaceAll(/\s/g, " ");
    const said = lengths === "mm" ? "6.1 m" : "20.5 ft";
    expect(all).toContain(`line for bystanders ${said}`);
    expect(all).toContain(`line ${said}`);
    expect(all).toContain(`Barrier at ${said}`);
    expect(all).toContain(`behind a barrier at ${said}`);
  });

  it("names the coil's room in the unit of the sheet", () => {
    const words = wordsOf(roomOf(lay(crowdedSubject(), { paper, lengths })).page).join("\n");
    expect(words).toMatch(lengths === "mm" ? /^19\sm × 17\sm$/m : /^62\sft × 56\sft$/m);
    // 8.63 m is 28.3 ft
    expect(words).toMatch(lengths === "mm" ? /^barrier 8.6\sm$/m : /^barrier 28\sft$/m);
  });
});
