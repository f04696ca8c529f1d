/** Every caution is there for each demo coil, and nothing calls a thing what no program may call it. */
import { describe, expect, it } from "vitest";
import { safetyQuantities } from "../../src/catalogue/quantities-safety.ts";
import { sources } from "../../src/catalogue/sources.ts";
import { safetySources } from "../../src/catalogue/sources-safety.ts";
import { standoffPlan, standoffSection } from "../../src/views/standoff-plan.ts";
import { floorSvg } from "../../src/views/standoff-svg.ts";
import { standoffText } from "../../src/views/text/standoff.ts";
import { showDayChecklist } from "../../src/workbench/standoff-checklist.ts";
import { demo, demoNames, quietWith } from "./standoff-coils.ts";

/** Words that no text of stand-off may have. Titles of published documents are left aside. */
const forbidden =
  /\b(safe|safely|safer|unsafe|allowed|permitted|harmless|compliant|compliance|no danger|no risk|not dangerous)\b/i;

const wanted: readonly (readonly [string, RegExp])[] = [
  ["line", /behind a barrier/i],
  ["implants", /pacemaker.*doctor/i],
  ["hearing-aids", /hearing aids/i],
  ["pregnancy", /doctor/i],
  ["children", /adult/i],
  ["pets", /animals stay out/i],
  ["hearing", /hearing protection/i],
  ["ozone", /change the air/i],
  ["ultraviolet", /ultraviolet/i],
  ["fire", /extinguisher/i],
  ["smoke-detectors", /sprinkler|detector|set them off/i],
  ["phones", /phones/i],
  ["metal", /bond/i],
  ["radio", /interference.*licen[cs]e/i],
  ["earth", /earth rod or plate/i],
  ["first-aid", /emergency number/i],
  ["codes", /licensed electricians/i],
];

const pageOf = (name: string): string => {
  const { coil, found } = demo(name);
  return standoffText({ coil, standoff: found, checklist: showDayChecklist(coil, found), fileName: `${name}.yaml` });
};

/** Reach of a mark along x [m]. */
const alongX = (marks: readonly { id: string; strokes: readonly unknown[] }[], id: RegExp): number[] => {
  const found = marks.filter((mark) => id.test(mark.id)).flatMap(({ strokes }) => strokes) as {
    kind: string;
    points?: { x: number }[];
    centre?: { x: number };
    radius?: number;
  }[];
  const xs = found.flatMap(({ points, centre, radius }) =>
    points ? points.map(({ x }) => x) : [centre!.x - radius!, centre!.x + radius!],
  );
  return [Math.min(...xs), Math.max(...xs)];
};

describe("walls of plan and section", () => {
  // law: both are cut from one room; the show's where the file has one, else the site's nearest wall
  it.each([
    ["the show's room", { "show.room": "{ width: 12 m, depth: 14 m, behind: 5 m, airing: changed }" }, [-5, 9]],
    ["the site's wall", { "show.room": undefined }, [-10, 10]],
  ] as const)("end at %s, at the same places", (_name, edits, ends) => {
    const { coil, found } = quietWith(edits);
    expect(alongX(standoffPlan(coil, found).marks, /^(room|wall)$/)).toEqual(ends);
    expect(alongX(standoffSection(coil, found).marks, /^section\.(room|wall)$/)).toEqual(ends);
  });

  it("ask for the room where only the nearest wall is known: it says nothing of the audience's side", () => {
    const { found } = quietWith({ "show.room": undefined });
    expect(found.missing.filter(({ path }) => path === "show.room")).toHaveLength(1);
  });
});

describe.each(demoNames)("the page of %s", (name) => {
  const page = pageOf(name);
  const flat = page.replaceAll(/\s+/g, " ");

  it("has every caution", () => {
    const { cautions } = demo(name).found;
    expect(cautions.map(({ id }) => id)).toEqual(wanted.map(([id]) => id));
    for (const [id, words] of wanted) {
      const caution = cautions.find((one) => one.id === id)!;
      expect(caution.says.join(" "), id).toMatch(words);
      expect(sources.has(caution.source)).toBe(true);
      for (const says of caution.says) expect(flat).toContain(says.replaceAll(/\s+/g, " "));
    }
  });

  it("never calls a thing safe, and says that it is no permission", () => {
    expect(page).not.toMatch(forbidden);
    expect(flat).toContain("none is a permission");
    expect(flat).toContain("They replace no electrician");
    expect(page).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });

  it("says what the touch table is not, and answers the skin effect by numbers", () => {
    for (const says of demo(name).found.touch.not) expect(flat).toContain(says);
    expect(flat).toMatch(/depth of penetration in muscle is [\d.]+ (mm|m), in copper [\d.]+ (mm|µm)/);
    expect(flat).toContain("never a permission");
    expect(flat).toContain("no published threshold");
  });

  it("keeps within 80 columns", () => {
    // Rows of the table of fields carry their mark behind the last column.
    expect(page.split("\n").filter((line) => [...line].length > 80)).toEqual([]);
  });

  it("marks what each candidate for the line stands on", () => {
    expect(flat).toContain("common practice, no source");
    expect(flat).toContain("read in a secondary source");
    expect(flat).toContain("← decides");
  });
});

describe("every text of the catalogue", () => {
  it("never calls a thing safe", () => {
    const texts = safetyQuantities.flatMap(({ name, definition, formula }) => [name, definition, formula]);
    for (const says of [...texts, ...Object.values(safetySources).map((one) => one.says)])
      expect(says).not.toMatch(forbidden);
    for (const { id, definition } of safetyQuantities.filter(({ group }) => group === "touch")) {
      if (!id.endsWith("Depth")) expect(definition).toContain("never a permission");
    }
  });

  // law: what was not seen in its document is marked so, as in test/reference/safety.json
  it("marks as from memory what is from memory", () => {
    for (const key of [
      "icnirp-2020-whole",
      "icnirp-1998-contact",
      "iec-60479-1-memory",
      "iec-60479-2-factors",
      "iec-60990",
      "discharge-perception",
      "gabriel-1996",
      "ieee-c95-excitation",
      "arc-demodulation",
      "spark-loudness",
    ]) {
      expect(sources.get(key)!.standing).toBe("memory");
    }
    expect(sources.get("half-metre-practice")!.standing).toBe("practice");
    for (const key of [
      "icnirp-2010",
      "icnirp-2020-local",
      "niosh-98-126",
      "osha-1910-95",
      "iec-60335-1-accessible",
      "fcc-15-209",
    ]) {
      expect(sources.get(key)!.standing).toBe("secondary");
    }
  });
});

describe("plan and section", () => {
  const { coil, found } = quietWith({});
  const [plan, section] = [standoffPlan(coil, found), standoffSection(coil, found)];

  // law: to scale, and the line where the figure says
  it("are to scale and have every mark of the show", () => {
    const ids = plan.marks.map(({ id }) => id);
    for (const id of [
      "room",
      "audience",
      "barrier",
      "strike",
      "reach",
      "coil",
      "object.0",
      "person.0",
      "operator",
      "second",
      "breaker",
      "exit",
      "earth",
    ]) {
      expect(ids).toContain(id);
    }
    const line = plan.marks.find(({ id }) => id === "audience")!.strokes[0]!;
    expect(line.kind === "arc" && line.radius).toBe(found.figures.get("standoff.audience")!.value);
    const reach = plan.marks.find(({ id }) => id === "reach")!.strokes[0]!;
    expect(reach.kind === "arc" && reach.radius).toBeCloseTo(
      found.place.radius + found.figures.get("standoff.reach")!.value,
      12,
    );
    expect(section.box.top).toBeGreaterThan(found.place.top + found.figures.get("standoff.strike")!.value);
  });

  it("are whole pictures with words for who cannot see them", () => {
    for (const drawn of [plan, section]) {
      const svg = floorSvg(drawn);
      expect(svg).toMatch(/^<svg [\s\S]*<\/svg>\n$/);
      expect(svg).toContain("<desc>");
      expect(svg).toContain("decided by");
      expect(svg).not.toMatch(forbidden);
      expect(svg).not.toMatch(/NaN|undefined|href/);
      for (const { says } of drawn.marks) expect(says.length).toBeGreaterThan(3);
    }
    // 1:150, as its foot says: 1 m is 1000/150 mm
    const svg = floorSvg(plan);
    const scale = Number(/plan 1:(\d+)/.exec(svg)![1]);
    const wide = Number(/width="([\d.]+)mm"/.exec(svg)![1]);
    expect(wide).toBeCloseTo((1000 * (plan.box.right - plan.box.left)) / scale, 1);
    expect(wide).toBeLessThanOrEqual(180);
  });
});
