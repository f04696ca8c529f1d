import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mainsCurrent } from "../../src/stress/index.ts";

const seed = 20260203;
const { entries } = JSON.parse(readFileSync(new URL("../reference/rectifiers.json", import.meta.url), "utf8")) as {
  readonly entries: readonly {
    readonly quantity: string;
    readonly inputs: Readonly<Record<string, number>>;
    readonly mean: number;
  }[];
};
const of = (quantity: string) => entries.filter((entry) => entry.quantity === quantity && entry.inputs["current"]);
const stiff = { resistance: 0.005, diodeDrop: 0 };

describe("mainsCurrent", () => {
  // independent: roots by mpmath, checked by event integration (test/reference/rectifiers.json). 0.3 %: the march takes half a degree a step
  it.each(of("bridge.ripple"))("leaves the mean of a stiff bridge, $inputs", ({ inputs, mean }) => {
    const { rms, frequency, capacitance, current } = inputs as Record<string, number>;
    const at = mainsCurrent({
      source: { rms: rms!, frequency: frequency! },
      capacitance: capacitance!,
      current: current!,
      doubler: false,
      ...stiff,
    });
    expect(at.voltage / mean).toBeCloseTo(1, 2.5);
  });

  it.each(of("doubler.ripple"))("leaves the mean of a stiff doubler, $inputs", ({ inputs, mean }) => {
    const { rms, frequency, capacitanceEach, current } = inputs as Record<string, number>;
    const at = mainsCurrent({
      source: { rms: rms!, frequency: frequency! },
      capacitance: capacitanceEach!,
      current: current!,
      doubler: true,
      ...stiff,
    });
    expect((2 * at.voltage) / mean).toBeCloseTo(1, 2.5);
  });

  const between = (min: number, max: number) =>
    fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
  const cases = fc.record({
    resistance: between(0.1, 20),
    capacitance: between(2e-4, 1e-2),
    current: between(0.01, 3),
    doubler: fc.boolean(),
  });

  it("takes in what load, resistance and diodes use up", () => {
    // law: energy over a cycle that repeats; 2 % by the step
    fc.assert(
      fc.property(cases, ({ resistance, capacitance, current, doubler }) => {
        const at = mainsCurrent({
          source: { rms: 230, frequency: 50 },
          resistance,
          diodeDrop: 2,
          capacitance,
          current,
          doubler,
        });
        const banks = doubler ? 2 : 1;
        const used = banks * current * (at.voltage + 2) + resistance * at.rms ** 2;
        fc.pre(at.voltage > 50);
        expect(Math.abs(at.power / used - 1)).toBeLessThan(0.02);
      }),
      { seed, numRuns: 60 },
    );
  });

  it("is never less than the current of a resistor of the same power, and eases as the mains gets weaker", () => {
    // law: Schwarz's inequality; resistance spreads the peaks
    fc.assert(
      fc.property(cases, ({ resistance, capacitance, current, doubler }) => {
        const through = (by: number) =>
          mainsCurrent({
            source: { rms: 230, frequency: 50 },
            resistance: by * resistance,
            diodeDrop: 2,
            capacitance,
            current,
            doubler,
          });
        const at = through(1);
        expect(at.rms * 230).toBeGreaterThanOrEqual(at.power * (1 - 1e-9));
        expect(through(3).peak).toBeLessThan(at.peak * (1 + 1e-6));
      }),
      { seed, numRuns: 60 },
    );
  });

  it("has a power factor between 0.4 and 0.75 on a usual socket", () => {
    // common practice, no source
    const at = mainsCurrent({
      source: { rms: 230, frequency: 50 },
      resistance: 1,
      diodeDrop: 2,
      capacitance: 1.5e-3,
      current: 1.5,
      doubler: false,
    });
    const factor = at.power / (230 * at.rms);
    expect(factor).toBeGreaterThan(0.4);
    expect(factor).toBeLessThan(0.75);
  });

  it("refuses a source without resistance", () => {
    const source = { rms: 230, frequency: 50 };
    expect(() =>
      mainsCurrent({ source, resistance: 0, diodeDrop: 0, capacitance: 1e-3, current: 1, doubler: false }),
    ).toThrow("positive");
  });
});
