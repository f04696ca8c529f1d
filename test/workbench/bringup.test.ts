import { describe, expect, it } from "vitest";
import { readCoil } from "../../src/readers/coil-file.ts";
import { bringUpText } from "../../src/views/text/bring-up.ts";
import { bringup } from "../../src/workbench/bringup.ts";
import { loopReading, pickupReading, wireReading } from "../../src/workbench/bringup-pickup.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import { solve } from "../../src/workbench/solve.ts";
import { exampleText } from "./match-bench.ts";

const sheetOf = (name: string, text = exampleText(name)) => {
  const file = readCoil(text);
  const coil = file.coil!;
  const solution = solve(coil);
  const made = study(coil, solution);
  return { file, coil, solution, study: made, sheet: bringup({ file, solution, study: made }) };
};

describe("bringup", () => {
  const { coil, solution, study: full, sheet } = sheetOf("inkwell");

  it("goes from parts to the full bus, and never lets the bus rise backwards", () => {
    expect(sheet.stages.map(({ id }) => id)).toEqual([
      "parts",
      "earth",
      "rails",
      "gates",
      "sweep",
      "low-bus",
      "tune",
      "overcurrent",
      "breakout",
      "full",
    ]);
    // law: no stage before the low bus has one, and the steps of the low bus rise
    const before = sheet.stages.slice(0, 5).flatMap(({ steps }) => steps.map(({ bus }) => bus));
    expect(Math.max(...before)).toBe(0);
    const low = sheet.stages[5]!.steps.map(({ bus }) => bus);
    expect(low).toEqual([...low].sort((a, b) => a - b));
    expect(Math.max(...low)).toBeLessThan(0.4 * full.setting.busVoltage);
  });

  it("expects at a low bus what the study of that burst gives", () => {
    const step = sheet.stages[5]!.steps.findLast(({ expects }) => expects?.unit === "A")!;
    // independent: the study of a train at that bus, with its own circuit, streamer and all
    const there = study(coil, solution, { busVoltage: step.bus, onTime: 60e-6, streamer: false });
    const peak = there.figures.get("burst.peakPrimaryCurrent")!.value;
    expect(Math.abs(step.expects!.value / peak - 1)).toBeLessThan(0.02);
    expect(step.expects!.low).toBeLessThan(peak);
    expect(step.expects!.high).toBeGreaterThan(peak);
  });

  it("checks the discharge before every stage, gives every step a stop, and orders each interval about its value", () => {
    for (const stage of sheet.stages) {
      expect(stage.touches).toBe(true);
      for (const { stop, picture, expects } of stage.steps) {
        expect(stop.length).toBeGreaterThan(10);
        expect(picture.length).toBeGreaterThan(10);
        if (!expects) continue;
        expect(expects.low).toBeLessThanOrEqual(expects.value);
        expect(expects.high).toBeGreaterThanOrEqual(expects.value);
      }
    }
    expect(sheet.discharge.steps.join(" ")).toMatch(/meter decides/);
    // law: RC to 60 V from the peak of the mains at +10 %
    const { each, bleeder } = coil.supply!.capacitors;
    const peak = 1.1 * Math.SQRT2 * coil.supply!.mains.voltage;
    expect(Math.abs(sheet.discharge.time! / (bleeder! * each * Math.log(peak / 60)) - 1)).toBeLessThan(0.01);
  });

  it("draws what each probe shows, on the numbers that the step expects", () => {
    const steps = sheet.stages.flatMap((stage) => stage.steps);
    const shown = (id: string) => steps.find((step) => step.id === id)!;
    for (const { shows, id } of steps) {
      if (!shows) continue;
      for (const { values } of shows.traces) expect(values.length, id).toBe(shows.at.length);
      expect(
        shows.at.every((at, n) => n === 0 || at > shows.at[n - 1]!),
        id,
      ).toBe(true);
      expect(shows.traces.flatMap(({ values }) => values).every(Number.isFinite), id).toBe(true);
    }
    const peak = (values: readonly number[]) => Math.max(...values.map(Math.abs));
    // law: the drawn burst has the peak that the step expects, less what lies between two points
    const low = shown("low-current-1");
    expect(peak(low.shows!.traces[0]!.values) / low.expects!.value).toBeGreaterThan(0.97);
    expect(peak(low.shows!.traces[0]!.values) / low.expects!.value).toBeLessThanOrEqual(1.0001);
    // law: the swept amplitude is greatest within a part in a hundred of a pole
    const { at, traces } = shown("pole-lower").shows!;
    const top = at[traces[0]!.values.indexOf(1)]!;
    const poles = ["poles.lower", "poles.upper"].map((id) => solution.figures.get(id)!.value);
    expect(Math.min(...poles.map((pole) => Math.abs(top / pole - 1)))).toBeLessThan(0.01);
    expect(shown("gate-polarity").shows!.traces.map(({ id }) => id)).toEqual(["gateUpper", "gateLower"]);
  });

  it("says whether somebody's own loop stays within what its input bears", () => {
    const moments = { low: sheet.pickup!.low, full: sheet.pickup!.full };
    const loop = { kind: "loop", size: 0.1, turns: 1, into: "terminated", distance: 1 } as const;
    const one = pickupReading(solution, loop, moments);
    // law: an open loop shows in proportion to its area and turns
    const open = { ...loop, into: "probe" } as const;
    const [small, large] = [open, { ...open, size: 0.2, turns: 3 }].map((each) =>
      pickupReading(solution, each, moments),
    );
    expect(large!.atFull / small!.atFull).toBeCloseTo(12, 6);
    expect(one.withinAtFull).toBe(3 * one.atFull < one.limit);
    const near = pickupReading(solution, { ...open, kind: "wire", size: 0.5, distance: 0.5 }, moments);
    expect(near.withinAtFull).toBe(false);
    expect(near.from!).toBeGreaterThan(0.5);
    expect(sheet.groundLead!.leads[0]!.ringsAt).toBeCloseTo(1 / (2 * Math.PI * Math.sqrt(150e-9 * 15e-12)), -3);
    expect(sheet.earthStrap!.rod.apart).toBeGreaterThan(sheet.earthStrap!.rod.length);
  });

  it("scales the current transformer by ratio over burden", () => {
    const { ratio, burden } = coil.feedback!.transformer!;
    expect(sheet.currentTransformer!.scale).toBeCloseTo(ratio / burden, 9);
  });

  it("gives the pickup of a small dipole: a loop falls as the cube, a wire as the field of charge and image", () => {
    const moment = { topVoltage: 1e4, primaryCurrent: 100, frequency: 2e5 };
    const [near, far] = [loopReading(solution, moment, 1), loopReading(solution, moment, 2)];
    expect(near / far).toBeCloseTo(8, 6);
    // independent: ω·µ0·m/(4π·d³)·A with the primary's moment of 6.75 turns at their mean radius, 100 mm loop
    const { firstTurnDiameter, pitch, tap } = coil.primary!;
    const radius = firstTurnDiameter / 2 + (pitch * (tap - 1)) / 2;
    const byHand = 2 * Math.PI * 2e5 * 1e-7 * tap * 100 * Math.PI * radius ** 2 * Math.PI * 0.05 ** 2;
    expect(Math.abs(near / byHand - 1)).toBeLessThan(0.01);
    const wire = (distance: number) => wireReading(solution, moment, { distance, into: "probe" });
    // exact limit: charge and image are a dipole far off, and the potential falls as the cube of the distance there
    expect(wire(8) / wire(16)).toBeGreaterThan(7.5);
    expect(wire(8) / wire(16)).toBeLessThan(8.5);
  });

  it("says what the file lacks instead of a number", () => {
    const bare = exampleText("inkwell").replace(/\nbridge:[\s\S]*?\nsupply:/, "\nsupply:");
    const { sheet: without } = sheetOf("inkwell", bare);
    const lowBus = without.stages.find(({ id }) => id === "low-bus")!;
    expect(lowBus.steps).toEqual([]);
    expect(lowBus.missing.join(" ")).toMatch(/bridge/);
  });
});

describe("bringUpText", () => {
  it("fits 80 columns and promises nothing, for every coil that comes with the program", () => {
    for (const name of ["inkwell", "thimble", "belfry"]) {
      const { sheet, coil } = sheetOf(name);
      const text = bringUpText({ sheet, name: coil.name, fileName: `${name}.yaml` });
      for (const line of text.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
      expect(text).not.toMatch(/\bsafe(ly)?\b|\ballowed\b|\bharmless\b|NaN|undefined|Infinity/);
      expect(text.match(/Off, pulled, discharged, measured, shorted/g)).toHaveLength(10);
    }
  });
});
