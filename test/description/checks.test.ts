import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { bodiesOf, overlap } from "../../src/description/checks/bodies.ts";
import { checkCoil } from "../../src/description/checks/index.ts";
import type { Coil } from "../../src/description/coil.ts";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";

const table = readFileSync(new URL("../readers/table-coil.yaml", import.meta.url), "utf8");
function changed(...edits: [string, string][]): string {
  const done = editCoil(
    table,
    edits.map(([path, value]) => ({ path, value })),
  );
  if ("findings" in done) throw new Error(done.findings[0]?.what);
  return done.text;
}

/** Hits with the rule that must report them; `gone` where no coil may remain. Each has its miss just beside it. */
const hits: [string, [string, string][], string, "gone" | "stays", [string, string][]][] = [
  [
    "turns that press on insulation",
    [["secondary.turns", "1201"]],
    "winding-does-not-fit",
    "stays",
    [["secondary.turns", "1199"]],
  ],
  [
    "turns that share copper",
    [["secondary.turns", "1341"]],
    "winding-does-not-fit",
    "gone",
    [["secondary.turns", "1199"]],
  ],
  [
    "insulation inside the copper",
    [["secondary.wire.overall", "0.29 mm"]],
    "insulation-inside-copper",
    "gone",
    [["secondary.wire.overall", "0.3 mm"]],
  ],
  [
    "a tube too thick for its ring",
    [["topload.0.toroid.tubeDiameter", "150 mm"]],
    "shape-impossible",
    "gone",
    [["topload.0.toroid.tubeDiameter", "90 mm"]],
  ],
  [
    "a person wider than tall",
    [["site.people.0.height", "0.3 m"]],
    "shape-impossible",
    "gone",
    [["site.people.0.height", "0.33 m"]],
  ],
  ["a tap beyond the turns", [["primary.tap", "8.01"]], "tap-beyond-turns", "gone", [["primary.tap", "8"]]],
  [
    "turns into each other",
    [["primary.pitch", "7.9 mm"]],
    "primary-turns-overlap",
    "gone",
    [["primary.pitch", "8.1 mm"]],
  ],
  [
    "layers into each other",
    [
      ["primary.layers.count", "2"],
      ["primary.layers.gap", "7 mm"],
    ],
    "primary-layers-overlap",
    "gone",
    [
      ["primary.layers.count", "2"],
      ["primary.layers.gap", "9 mm"],
    ],
  ],
  [
    "a first turn over the axis",
    [
      ["primary.firstTurnDiameter", "7 mm"],
      ["primary.baseHeight", "100 mm"],
    ],
    "primary-over-axis",
    "gone",
    [
      ["primary.firstTurnDiameter", "12 mm"],
      ["primary.baseHeight", "100 mm"],
    ],
  ],
  [
    "a toroid in the ground",
    [["topload.0.toroid.height", "37 mm"]],
    "below-ground",
    "gone",
    [["topload.0.toroid.height", "39 mm"]],
  ],
  [
    "a winding on the ground",
    [["secondary.baseHeight", "0 mm"]],
    "below-ground",
    "gone",
    [["secondary.baseHeight", "1 mm"]],
  ],
  [
    "a winding through the ceiling",
    [
      ["site.ceiling", "0.67 m"],
      ["site.people", "[]"],
      ["site.objects", "[]"],
    ],
    "above-ceiling",
    "gone",
    [
      ["site.ceiling", "0.68 m"],
      ["site.people", "[]"],
      ["site.objects", "[]"],
    ],
  ],
  [
    "a strike ring in the wall",
    [
      ["site.wall", "223 mm"],
      ["site.people", "[]"],
      ["site.objects", "[]"],
    ],
    "beyond-wall",
    "gone",
    [
      ["site.wall", "225 mm"],
      ["site.people", "[]"],
      ["site.objects", "[]"],
    ],
  ],
  [
    "a primary in the winding",
    [
      ["primary.baseHeight", "200 mm"],
      ["primary.firstTurnDiameter", "117 mm"],
      ["primary.strikeRing.height", "260 mm"],
    ],
    "parts-overlap",
    "gone",
    [
      ["primary.baseHeight", "200 mm"],
      ["primary.firstTurnDiameter", "120 mm"],
      ["primary.strikeRing.height", "260 mm"],
    ],
  ],
  [
    "a strike ring in the primary",
    [
      ["primary.strikeRing.diameter", "376 mm"],
      ["primary.strikeRing.height", "165 mm"],
    ],
    "parts-overlap",
    "gone",
    [
      ["primary.strikeRing.diameter", "396 mm"],
      ["primary.strikeRing.height", "165 mm"],
    ],
  ],
  [
    "a person in the primary",
    [["site.people.0.at", "0.33 m"]],
    "stands-in-coil",
    "gone",
    [["site.people.0.at", "0.38 m"]],
  ],
  ["a rod over the axis", [["site.objects.0.at", "5 mm"]], "stands-in-coil", "gone", [["site.objects.0.at", "0.5 m"]]],
  ["a person in the wall", [["site.people.0.at", "3.3 m"]], "stands-in-wall", "gone", [["site.people.0.at", "3.2 m"]]],
  [
    "a person behind the wall",
    [["site.people.0.at", "3.6 m"]],
    "stands-behind-wall",
    "stays",
    [["site.people.0.at", "3.2 m"]],
  ],
  [
    "a person through the ceiling",
    [["site.ceiling", "1.75 m"]],
    "stands-in-ceiling",
    "gone",
    [["site.ceiling", "1.76 m"]],
  ],
  [
    "a burst longer than its period",
    [["interrupter.onTime", "6 ms"]],
    "burst-longer-than-period",
    "gone",
    [["interrupter.onTime", "5 ms"]],
  ],
];

describe("what no coil can be", () => {
  // law: each limit is the geometry itself; the hit and the miss lie on its two sides
  it.each(hits)("%s", (_, edits, rule, remains, miss) => {
    const hit = readCoil(changed(...edits));
    const finding = hit.findings.find((f) => f.rule === rule);
    expect(hit.findings.map((f) => f.rule)).toContain(rule);
    expect(hit.coil === undefined).toBe(remains === "gone");
    expect(finding?.severity === "stop").toBe(remains === "gone");
    expect(finding?.place?.line).toBeGreaterThan(1);
    expect(finding?.what).toMatch(/\d/);
    expect(finding?.expected).toBeTruthy();
    const beside = readCoil(changed(...miss));
    expect(beside.findings.map((f) => f.rule)).not.toContain(rule);
    expect(beside.coil).toBeDefined();
  });

  it("says it in the manner of the house, with remedies that work", () => {
    const text = changed(
      ["secondary.turns", "1300"],
      ["secondary.wire.overall", "0.352 mm"],
      ["secondary.length", "420 mm"],
    );
    const [finding] = readCoil(text).findings;
    expect(finding).toMatchObject({
      rule: "winding-does-not-fit",
      severity: "fix",
      path: "secondary.turns",
      place: { line: 19, column: 10, length: 4 },
      what: "1300 turns of 0.352 mm wire need 457.6 mm; the winding is 420 mm long",
      expected: "at most 1193 turns, or a length of at least 457.6 mm",
    });
    expect(finding?.remedies.map((r) => r.says)).toEqual([
      "turns: 1193",
      "length: 457.6 mm",
      "thinner wire, at most 0.323 mm over its insulation",
    ]);
    for (const remedy of finding?.remedies.slice(0, 2) ?? []) {
      const done = editCoil(text, remedy.edits);
      expect("text" in done && readCoil(done.text).findings.map((f) => f.rule)).not.toContain("winding-does-not-fit");
    }
  });

  it("lets the remedies of a tight winding fit for any length", () => {
    for (const overall of [0.3, 0.3137, 0.35, 0.401]) {
      for (const length of [77.7, 300.03, 401.9]) {
        const text = changed(
          ["secondary.turns", "1500"],
          ["secondary.wire", `{ bare: 0.05 mm, overall: ${overall} mm }`],
          ["secondary.length", `${length} mm`],
          ["topload", "[]"],
        );
        const finding = readCoil(text).findings.find((f) => f.rule === "winding-does-not-fit");
        for (const remedy of finding?.remedies.filter((r) => r.edits.length > 0) ?? []) {
          const done = editCoil(text, remedy.edits);
          expect("text" in done && readCoil(done.text).findings.map((f) => f.rule), `${remedy.says}`).not.toContain(
            "winding-does-not-fit",
          );
        }
      }
    }
  });

  it("finds nothing to say about the examples", () => {
    for (const name of ["thimble", "inkwell", "belfry"]) {
      const { coil } = readCoil(readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8"));
      expect(checkCoil(coil as Coil)).toEqual([]);
    }
  });
});

describe("overlap", () => {
  const bodies = bodiesOf(readCoil(table).coil as Coil);
  it("lists winding, top load, every turn wound and the strike ring", () => {
    expect(bodies.map((b) => b.group)).toEqual(["winding", "topload", ...Array(8).fill("primary"), "strikeRing"]);
  });
  // law: symmetric, and true of a body with itself
  it("is symmetric", () => {
    for (const a of bodies) for (const b of bodies) expect(overlap(a, b)).toBe(overlap(b, a));
    for (const a of bodies) expect(overlap(a, a)).toBe(true);
  });
});
