/** What docs/field-solver.md states as measured is measured again. A line that fails is a page to correct, or a solver to mend. */
import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { fieldSystem, solveField } from "../../src/fields/field-solution.ts";
import { medhurstCapacitance } from "../../src/fields/handbook/medhurst-capacitance.ts";
import { medhurstResistanceRatio } from "../../src/fields/handbook/medhurst-resistance.ts";
import { windingMatrixColumn } from "../../src/fields/inductance.ts";
import { peakSurfaceField } from "../../src/fields/surface-field.ts";
import { copperResistivity20 } from "../../src/fields/wire-loss.ts";
import { windingLoss } from "../../src/fields/wire-loss-winding.ts";
import { coilGeometry } from "../../src/geometry/coil-geometry.ts";
import type { Outline } from "../../src/parts/shape.ts";
import { streamerCapacitance } from "../../src/resonator/streamer-load.ts";
import { firstFrequency, windingMagnetics } from "../../src/resonator/winding-modes.ts";
import { solve } from "../../src/workbench/solve.ts";
import { charged, disc, patched, sphere, torus } from "../fields/conductors.ts";
import { relativeError } from "../numerics/within.ts";

import reference from "../reference/capacitance.json" with { type: "json" };
import { cases, coilOf } from "../resonator/open-cases.ts";
import { bareCoil } from "./coils.ts";
import { codeIn, numberIn, pageOf, tableOf } from "./page.ts";

const page = pageOf("field-solver.md");
const solved = cases.map((each) => ({ each, ...solve(coilOf(each)) }));
const caseOf = (name: string) => cases.find((each) => each.name === name)!;

describe("whole coils against the independent model", () => {
  const rows = tableOf(page, "figure", "apart by at most");
  // independent: test/reference/resonator-open-cases.json
  it.each(rows)("%s is apart by at most %s", (figure, atMost) => {
    const id = codeIn(figure!);
    const worst = Math.max(
      ...solved.flatMap(({ each, figures }) => {
        const expected = each.expected[id];
        return typeof expected === "number" ? [relativeError(figures.get(id)!.value, expected)] : [];
      }),
    );
    expect(worst).toBeLessThanOrEqual(numberIn(atMost!));
    // A solver that became much better deserves a page that says so.
    expect(worst).toBeGreaterThan(Math.min(numberIn(atMost!) / 30, 1e-8));
  });
  it("leaves no figure of the reference out", () => {
    const compared = new Set(solved.flatMap(({ each }) => Object.keys(each.expected)));
    const written = rows.map(([figure]) => codeIn(figure!));
    const curves = ["secondary.profile", "topload.peakFieldAt", "primary.peakFieldAt"];
    expect([...compared].filter((id) => !curves.includes(id)).sort()).toEqual([...written].sort());
  });
});

describe("more nodes", () => {
  // independent: f1 of the same reference
  it.each(tableOf(page, "coil", "half", "usual"))("%s: apart by at most %s, %s, %s", (name, ...cells) => {
    const geometry = coilGeometry(coilOf(caseOf(name!)));
    const column = windingMatrixColumn({ ...geometry.winding, equivalentRadius: geometry.winding.wireDiameter / 2 });
    [0.5, 1, 2].forEach((refine, i) => {
      const system = fieldSystem(geometry, refine);
      const magnetics = windingMagnetics({ patch: system.windingPatch, column, hasTop: true });
      const f1 = firstFrequency(magnetics, solveField(system).capacitance);
      expect(relativeError(f1, caseOf(name!).expected["secondary.f1"] as number)).toBeLessThan(numberIn(cells[i]!));
    });
  });
});

describe("people beside the axis", () => {
  const coil = coilOf(caseOf("dunlin"));
  const f1 = (people: Coil["site"]["people"]) =>
    solve({ ...coil, site: { ...coil.site, people } }).figures.get("secondary.f1")!.value;
  const clear = f1([]);
  it.each(tableOf(page, "person's axis at"))("at %s shift f1 by %s", (at, shift) => {
    const found = f1([{ at: numberIn(at!), height: 1.75, radius: 0.15, foot: 0.02 }]) - clear;
    const hertz = numberIn(shift!) * (shift!.endsWith("kHz") ? 1000 : 1);
    expect(relativeError(found, hertz)).toBeLessThan(2e-3);
  });
});

describe("loss by orthogonality", () => {
  // published: Medhurst's table of resistance ratios, experimental, read in a secondary source
  it.each(tableOf(page, "wire diameter over pitch"))("wire over pitch %s: %s %s %s %s %s", (fill, ...cells) => {
    [0.4, 1, 2, 4, 10].forEach((slender, i) => {
      const [turns, wireDiameter, frequency] = [200, 1e-3, 2e7];
      const length = (turns * wireDiameter) / numberIn(fill!);
      const { resistanceSkin, resistanceAc } = windingLoss({
        winding: { radius: length / slender / 2, pitch: length / turns, turns },
        wireDiameter,
        frequency,
        resistivity: copperResistivity20,
        current: new Float64Array(turns).fill(1),
      });
      const table = medhurstResistanceRatio({
        length,
        diameter: length / slender,
        wireDiameter,
        pitch: length / turns,
      });
      expect(Math.abs(100 * (resistanceAc / resistanceSkin / table - 1) - numberIn(cells[i]!))).toBeLessThan(0.7);
    });
  });
});

describe("bare coils", () => {
  // published: Medhurst's table of self-capacitances, experimental, read in a secondary source
  it("stand to Medhurst's table as the page says", () => {
    const [ratios] = tableOf(page, "length over diameter");
    [1, 1.5, 2, 3, 4, 5].forEach((slender, i) => {
      const { figures } = solve(bareCoil(slender));
      const [f1, inductance] = ["secondary.f1", "secondary.inductance"].map((id) => figures.get(id)!.value);
      const theory = 1 / ((2 * Math.PI * f1!) ** 2 * inductance!);
      const table = medhurstCapacitance({ length: 0.1 * slender, diameter: 0.1 });
      expect(Math.abs(theory / table - numberIn(ratios![i + 1]!))).toBeLessThan(0.006);
    });
  });
});

describe("sizes in the running text", () => {
  const figure = (index: number, id: string) => solved[index]!.figures.get(id)!;
  const all = [0, 1, 2, 3];
  const range = (values: readonly number[]) => [Math.min(...values), Math.max(...values)] as const;
  // law: only the words are on trial; each claim stands on the page as it stands here
  it.each([
    {
      words: "it lies 1.3 to 7.7 % above",
      values: () =>
        all.map((i) => {
          const [L, C] = ["secondary.energyInductance", "secondary.energyCapacitance"].map((id) => figure(i, id).value);
          return 100 * (1 / (2 * Math.PI * Math.sqrt(L! * C!)) / figure(i, "secondary.f1").value - 1);
        }),
      from: 1.3,
      to: 7.8,
    },
    {
      words: "by 0.04 to 0.07 % at k = 0.15 to 0.2",
      values: () => [0, 1, 2].flatMap((i) => twoLoopsOff(i)),
      from: 0.04,
      to: 0.07,
    },
    { words: "by 0.17 to 0.34 % at k = 0.27", values: () => twoLoopsOff(3), from: 0.16, to: 0.34 },
    {
      words: "3 to 6 % more on the reference coils",
      values: () => all.map((i) => 100 * (figure(i, "coupling.kMode1").value / figure(i, "coupling.k").value - 1)),
      from: 3,
      to: 6.5,
    },
    {
      words: "lower f1 by 0.6 to 1.4 % on the reference coils",
      values: () => all.map((i) => shiftBy(i, "primary")),
      from: 0.55,
      to: 1.4,
    },
    {
      words: "a person at 1.2 m from `dunlin` by 0.31 %",
      values: () => [shiftBy(3, "site.people.0")],
      from: 0.3,
      to: 0.315,
    },
    {
      words: "2.9 pF at 0.5 m, 5.1 pF at 1 m, 9.0 pF at 2 m",
      values: () => [
        1e12 * streamerCapacitance(0.5) - 2.9,
        1e12 * streamerCapacitance(1) - 5.1,
        1e12 * streamerCapacitance(2) - 9,
      ],
      from: -0.05,
      to: 0.05,
    },
  ])("$words", ({ words, values, from, to }) => {
    expect(page.replaceAll("\n", " ").includes(words), `docs/field-solver.md says: ${words}`).toBe(true);
    const [least, greatest] = range(values());
    expect(least).toBeGreaterThanOrEqual(from);
    expect(greatest).toBeLessThanOrEqual(to);
  });

  function twoLoopsOff(index: number): number[] {
    return ["poles.lower", "poles.upper"].map((id) => {
      const { value, crossChecks } = figure(index, id);
      return 100 * (crossChecks[0]!.value / value - 1);
    });
  }
  function shiftBy(index: number, path: string): number {
    const { detunings } = solved[index]!;
    return (-100 * detunings.find((each) => each.path === path)!.shift) / figure(index, "secondary.f1").value;
  }
});

describe("conductors alone", () => {
  const entries = (quantity: string) =>
    (reference.entries as unknown as Entry[]).filter((e) => e.quantity === quantity);
  const capacitance = (outline: Outline, ground: boolean) =>
    charged(patched([outline], ground)[0]!, ground).capacitance;
  const peak = (outline: Outline, ground: boolean) => {
    const [patch] = patched([outline], ground)[0]!;
    return peakSurfaceField(patch!, charged([patch!], ground).charges).field;
  };
  const over = (inputs: Entry["inputs"]) => sphere(inputs["radius"]!, inputs["centreHeight"]!);
  const ring = (inputs: Entry["inputs"]) =>
    torus({
      majorRadius: inputs["majorRadius"]!,
      tubeRadius: inputs["tubeRadius"]!,
      height: inputs["centreHeight"] ?? 0,
    });
  // published and independent: test/reference/capacitance.json, the witness of each beside it; the same as the solver's own tests
  const measured: Readonly<Record<string, () => readonly [found: number, expected: number][]>> = {
    "ball, disc": () => [
      ...entries("sphere.capacitance").map(({ inputs, value }) =>
        pair(capacitance(sphere(inputs["radius"]!, 0), false), value),
      ),
      ...entries("disc.capacitance").map(({ inputs, value }) =>
        pair(capacitance(disc(inputs["radius"]!, 0), false), value),
      ),
    ],
    "torus, tube/ring radius 0.01 to 0.93": () =>
      entries("torus.capacitance").map(({ inputs, value }) => pair(capacitance(ring(inputs), false), value)),
    "torus over the ground": () =>
      entries("torusOverPlane.capacitance").map(({ inputs, value }) => pair(capacitance(ring(inputs), true), value)),
    "ball over the ground, gap 0.01 to 5.7 radii": () =>
      entries("sphereOverPlane.capacitance").map(({ inputs, value }) => pair(capacitance(over(inputs), true), value)),
    "field at a torus's outer equator": () =>
      entries("torus.fieldPerVolt.outerEquator")
        .filter(({ inputs }) => inputs["tubeRadius"]! < 0.9 * inputs["majorRadius"]!)
        .map(({ inputs, value }) => pair(peak(ring(inputs), false), value)),
    "field at the lowest point of a ball over the ground": () =>
      entries("sphereOverPlane.fieldPerVolt.bottom").map(({ inputs, value }) => pair(peak(over(inputs), true), value)),
  };
  const elsewhere = ["two balls", "two balls that cross at right angles"];
  it.each(tableOf(page, "conductor", "witness"))("%s, against %s: at most %s", (name, _, atMost) => {
    // Two conductors at once are measured in test/fields/electrostatics.test.ts.
    if (elsewhere.includes(name!)) return expect(numberIn(atMost!)).toBeLessThan(1e-5);
    const pairs = measured[name!]!();
    expect(pairs.length).toBeGreaterThan(2);
    for (const [found, expected] of pairs) expect(relativeError(found, expected)).toBeLessThan(numberIn(atMost!));
  });
});

interface Entry {
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, number>>;
  readonly value: number;
}
const pair = (found: number, expected: number): [number, number] => [found, expected];
