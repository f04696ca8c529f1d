import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { numberAt, withNumber } from "../../src/workbench/coil-path.ts";
import { intervals } from "../../src/workbench/doubts.ts";
import { explain } from "../../src/workbench/explain.ts";
import { isUnder, rootsOf, sensitivities } from "../../src/workbench/sensitivities.ts";
import { solve } from "../../src/workbench/solve.ts";
import { quietCoil } from "../findings/quiet-coil.ts";

const file = readCoil(quietCoil);
const coil: Coil = file.coil!;
const solution = solve(coil);
const options = { file, solution, solve };

describe("a number by its path", () => {
  it("is read and replaced, in lists too, and everything else stays", () => {
    expect(numberAt(coil, "topload.0.toroid.tubeDiameter")).toBe(0.016);
    const moved = withNumber(coil, "topload.0.toroid.tubeDiameter", 0.02);
    expect(numberAt(moved, "topload.0.toroid.tubeDiameter")).toBe(0.02);
    expect(numberAt(coil, "topload.0.toroid.tubeDiameter")).toBe(0.016);
    expect(Array.isArray(moved.topload)).toBe(true);
    expect(moved.secondary).toBe(coil.secondary);
    expect(numberAt(coil, "topload.3.toroid.height")).toBeUndefined();
  });
});

describe("what a figure stands on", () => {
  it("is followed through the figures between to the keys of the file", () => {
    const roots = rootsOf(solution.figures, ["tank.frequency"]);
    expect(roots).toContain("tank.bank.each");
    expect(roots).toContain("tank.leads.inductance");
    expect(roots).toContain("primary.pitch");
    expect(roots.some((root) => solution.figures.has(root))).toBe(false);
    expect(isUnder("topload.0.toroid.height", "topload")).toBe(true);
    expect(isUnder("toploads.0", "topload")).toBe(false);
  });
});

describe("sensitivities", () => {
  const tank = sensitivities({ ...options, figures: ["tank.frequency", "tank.capacitance"] });
  const elasticity = (path: string, id: string) => {
    const found = tank.find((each) => each.path === path);
    return ((found?.slopes.get(id) ?? 0) * (found?.value ?? 0)) / solution.figures.get(id)!.value;
  };

  // exact: f = 1/(2π√(LC)), C = each·parallel/series, L = primary + leads
  it("know that a tank's frequency falls by half a per cent for a per cent of the bank", () => {
    expect(elasticity("tank.bank.each", "tank.frequency")).toBeCloseTo(-0.5, 5);
    expect(elasticity("tank.bank.each", "tank.capacitance")).toBeCloseTo(1, 8);
  });

  it("know the leads' share of it", () => {
    const share = coil.tank!.leads.inductance / solution.figures.get("tank.inductance")!.value;
    expect(elasticity("tank.leads.inductance", "tank.frequency")).toBeCloseTo(-share / 2, 5);
  });

  // law: all lengths of the primary together scale its inductance by the same factor
  it("of all lengths of the primary add up to one for its inductance", () => {
    const lengths = ["primary.firstTurnDiameter", "primary.pitch", "primary.conductor.tube"];
    const sum = lengths.reduce((total, path) => total + elasticityOf(path), 0);
    expect(sum).toBeCloseTo(1, 4);
    function elasticityOf(path: string): number {
      const found = tank.find((each) => each.path === path)!;
      const id = "primary.inductance";
      return (found.slopes.get(id)! * found.value) / solution.figures.get(id)!.value;
    }
  });

  it("leave out what has no effect, and what is a choice", () => {
    const paths = tank.map(({ path }) => path);
    expect(paths).not.toContain("secondary.turns");
    expect(paths).not.toContain("tank.bank.series");
    expect(paths).not.toContain("primary.turns");
    expect(paths).not.toContain("tank.leads.resistance");
  });

  it("stop at the number that was asked for, and report how far they are", () => {
    const seen: [number, number][] = [];
    sensitivities({
      ...options,
      figures: ["tank.frequency"],
      most: 2,
      onProgress: (done, of) => seen.push([done, of]),
    });
    expect(seen).toEqual([
      [1, 2],
      [2, 2],
    ]);
  });

  it("move a number one way where the other way cannot be solved", () => {
    const oneWay = (moved: Coil) => {
      if (moved.tank!.bank.each > coil.tank!.bank.each) throw new RangeError("cannot be");
      return solve(moved);
    };
    const [found] = sensitivities({ ...options, solve: oneWay, figures: ["tank.capacitance"] });
    expect(found?.slopes.get("tank.capacitance")).toBeCloseTo(0.5, 6);
  });
});

describe("intervals", () => {
  // independent: the tank's frequency by hand. 1 % on the bank is 0.5 % (95 %); the leads 0.3 µH ± 3 %, the primary's lengths by their default
  // tolerances, and 1 % of the model
  it("add the parts of the variance, and the shares add up to one with the model", () => {
    const doubt = intervals({ ...options, figures: ["tank.frequency"] }).get("tank.frequency")!;
    const sum = doubt.contributions.reduce((total, { halfWidth }) => total + halfWidth ** 2, doubt.model ** 2);
    expect(doubt.high - doubt.value).toBeCloseTo(Math.sqrt(sum), 6);
    const bank = doubt.contributions.find(({ path }) => path === "tank.bank.each")!;
    expect(bank.halfWidth / doubt.value).toBeCloseTo(0.005 * (1.645 / 2), 6);
    const shares = doubt.contributions.reduce((total, { share }) => total + share, 0);
    expect(shares + doubt.model ** 2 / sum).toBeCloseTo(1, 9);
    expect(doubt.contributions.map(({ share }) => share)).toEqual(
      doubt.contributions.map(({ share }) => share).sort((a, b) => b - a),
    );
  });

  // law: a law that brings its own interval keeps its own two sides
  it("keep the two sides of the breakout voltage apart", () => {
    const breakout = solution.figures.get("topload.breakoutVoltage")!;
    const doubt = intervals({ ...options, figures: ["topload.breakoutVoltage"], most: 3 }).get(
      "topload.breakoutVoltage",
    )!;
    expect(doubt.low).toBeLessThanOrEqual(breakout.low!);
    expect(doubt.high).toBeGreaterThanOrEqual(breakout.high!);
    expect(doubt.value - doubt.low).toBeGreaterThan(3 * (doubt.high - doubt.value));
  });
});

describe("explain", () => {
  it("gives what a figure is, from what and by which source", () => {
    const found = explain({ file, solution, id: "tank.frequency" })!;
    expect(found).toMatchObject({
      id: "tank.frequency",
      unit: "Hz",
      source: { key: "lc-resonance", mark: "follows from the definitions, as in any textbook" },
      sensitivities: [],
    });
    expect(found.inputs.map((input) => (input.kind === "figure" ? input.id : input.path))).toEqual([
      "tank.capacitance",
      "tank.inductance",
    ]);
  });

  it("shows the file's own words for its inputs, and says what nobody wrote", () => {
    const { inputs } = explain({ file, solution, id: "primary.inductance" })!;
    expect(inputs).toContainEqual({
      kind: "key",
      path: "primary.pitch",
      text: "11 mm",
      origin: "drawn",
      written: true,
    });
    const gap = inputs.find((input) => input.kind === "key" && input.path === "primary.layers.gap");
    expect(gap).toMatchObject({ origin: "guessed", written: false });
  });

  it("compares with the handbooks, and says where they hold", () => {
    const { crossChecks } = explain({ file, solution, id: "secondary.inductance" })!;
    expect(crossChecks.length).toBeGreaterThan(1);
    for (const { disagreement, valid, mark } of crossChecks) {
      // published: each formula holds within 2 % for a coil of many turns
      if (valid) expect(Math.abs(disagreement)).toBeLessThan(0.02);
      expect(mark.length).toBeGreaterThan(3);
    }
  });

  // law: knowing the worst number exactly takes its share of the variance away
  it("names the measurement that would shrink the interval most", () => {
    const found = explain({ file, solution, id: "tank.frequency", solve })!;
    const { measure, doubt } = found;
    expect(measure?.path).toBe(doubt?.contributions[0]?.path);
    const [before, after] = [doubt!.high - doubt!.value, measure!.high - doubt!.value];
    expect(after).toBeCloseTo(before * Math.sqrt(1 - measure!.share), 6);
    expect(found.sensitivities[0]!.percentPerPercent).toBeLessThan(0);
  });

  it("has nothing to say about a figure that the solution lacks", () =>
    expect(explain({ file, solution, id: "burst.frequency" })).toBeUndefined());
});
