import { describe, expect, it } from "vitest";
import { study } from "../../src/workbench/burst-stage.ts";
import { intervals } from "../../src/workbench/doubts.ts";
import { explain } from "../../src/workbench/explain.ts";
import { sensitivities } from "../../src/workbench/sensitivities.ts";
import { solutionWithBurst, solveWithBurst } from "../../src/workbench/solve-with-burst.ts";
import { quietBurst } from "../findings/changed.ts";

const { file, solution, study: lit } = quietBurst();
const { coil } = solution;
const dark = study(coil, solution, { streamer: false });
const whole = solutionWithBurst(solution, lit);

describe("a solution with its burst", () => {
  it("holds the figures of both, those of the solution unchanged", () => {
    expect(whole.figures.size).toBe(solution.figures.size + lit.figures.size);
    expect(whole.figures.get("secondary.f1")).toBe(solution.figures.get("secondary.f1"));
    expect(whole.figures.get("burst.frequency")).toEqual(lit.figures.get("burst.frequency"));
  });

  // law: any load of the streamer lies between the one reckoned with and none
  it("lets what the streamer's load moves reach to a burst without streamer", () => {
    for (const id of ["burst.peakPrimaryCurrent", "burst.peakTopVoltage", "bank.voltageEach", "winding.peakField"]) {
      const found = whole.figures.get(id)!;
      expect([id, found.high]).toEqual([id, dark.figures.get(id)!.value]);
      expect([id, found.low]).toEqual([id, found.value]);
    }
    expect(whole.figures.get("burst.streamerLength")).toEqual(lit.figures.get("burst.streamerLength"));
    expect(whole.figures.get("bus.dischargeTime")).toEqual(lit.figures.get("bus.dischargeTime"));
    const doubt = intervals({
      file,
      solution: whole,
      solve: solveWithBurst(),
      figures: ["burst.peakTopVoltage"],
      moved: [],
    });
    expect(doubt.get("burst.peakTopVoltage")!.high).toBeCloseTo(dark.figures.get("burst.peakTopVoltage")!.value, 3);
  });

  it("widens nothing where there is no streamer to load it", () => {
    expect(solutionWithBurst(solution, dark).figures.get("burst.peakTopVoltage")?.high).toBeUndefined();
  });
});

describe("slopes of a burst's figures", () => {
  // exact: t = R·C·ln(V0/60 V), V0 in proportion to the mains: the slope of the logarithm by the chord over ±2 %
  it("are those of the chord over each number's tolerance", () => {
    const asked = { file, solution: whole, solve: solveWithBurst(), most: 1000 };
    const moved = sensitivities({ ...asked, figures: ["bus.dischargeTime"] });
    const mains = moved.find(({ path }) => path === "supply.mains.voltage")!;
    const step = Math.max(file.provenances.get("supply.mains.voltage")!.tolerance, 5e-3 * 230);
    const time = (volts: number) => 110e-6 * 150e3 * Math.log((1.1 * Math.SQRT2 * volts) / 60);
    const chord = (time(230 + step) - time(230 - step)) / (2 * step);
    expect(mains.slopes.get("bus.dischargeTime")! / chord).toBeCloseTo(1, 6);
  });

  it("stand on every number that the burst was made from, and say that they are chords", () => {
    const found = explain({
      file,
      solution: whole,
      id: "burst.peakPrimaryCurrent",
      solve: solveWithBurst(),
      most: 1000,
    })!;
    expect(found.byChord).toBe(true);
    const paths = found.sensitivities.map(({ path }) => path);
    for (const path of ["supply.mains.voltage", "feedback.lead", "tank.bank.each", "secondary.turns"]) {
      expect(paths).toContain(path);
    }
    expect(explain({ file, solution: whole, id: "secondary.f1" })!.byChord).toBe(false);
  }, 30_000);
});
