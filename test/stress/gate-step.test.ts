import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { gateStep } from "../../src/stress/index.ts";

const seed = 20260204;

/** The same step marched in small steps of fourth order: [peak current, rise time, overshoot]. */
function marched({ swing, charge, resistor, leakage }: Parameters<typeof gateStep>[0]) {
  const capacitance = charge / swing;
  const omega = 1 / Math.sqrt(leakage * capacitance);
  const slow = Math.max(1 / omega, resistor * capacitance);
  const step = Math.min(1 / omega, leakage / Math.max(resistor, 1e-9)) / 200;
  const slope = (i: number, v: number) => [(swing - v - resistor * i) / leakage, i / capacitance] as const;
  let [i, v, peak, top] = [0, 0, 0, 0];
  let [from, to] = [Number.NaN, Number.NaN];
  for (let t = 0; t < 12 * slow; t += step) {
    const a = slope(i, v);
    const b = slope(i + (step / 2) * a[0], v + (step / 2) * a[1]);
    const c = slope(i + (step / 2) * b[0], v + (step / 2) * b[1]);
    const d = slope(i + step * c[0], v + step * c[1]);
    i += (step / 6) * (a[0] + 2 * b[0] + 2 * c[0] + d[0]);
    v += (step / 6) * (a[1] + 2 * b[1] + 2 * c[1] + d[1]);
    peak = Math.max(peak, i);
    top = Math.max(top, v);
    if (Number.isNaN(from) && v >= 0.1 * swing) from = t;
    if (Number.isNaN(to) && v >= 0.9 * swing) to = t;
  }
  return { peak, rise: to - from, overshoot: Math.max(0, top / swing - 1) };
}

describe("gateStep", () => {
  // independent: the same circuit marched by Runge–Kutta; 1 % by its step
  it.each([1.5, 6.8, 18.8, 40])("agrees with a march through %d Ω", (resistor) => {
    const gate = { swing: 30, charge: 190e-9, resistor, leakage: 0.6e-6 };
    const found = gateStep(gate);
    const other = marched(gate);
    expect(found.peakCurrent / other.peak).toBeCloseTo(1, 2);
    expect(found.riseTime / other.rise).toBeCloseTo(1, 1.7);
    expect(found.overshoot).toBeCloseTo(other.overshoot, 2);
  });

  it("without leakage is a resistor and a capacitor", () => {
    // exact limit: V/R and ln 9·R·C
    const { peakCurrent, riseTime, overshoot } = gateStep({ swing: 15, charge: 150e-9, resistor: 5, leakage: 0 });
    expect(peakCurrent).toBe(3);
    expect(riseTime).toBeCloseTo(Math.log(9) * 5 * 10e-9, 15);
    expect(overshoot).toBe(0);
  });

  it("at critical damping peaks at 2/e of V/R", () => {
    // exact limit: i = (V/L)·t·e^(−ω0·t) at ζ = 1
    const [capacitance, leakage] = [10e-9, 1e-6];
    const resistor = 2 * Math.sqrt(leakage / capacitance);
    const { peakCurrent, overshoot } = gateStep({ swing: 15, charge: 15 * capacitance, resistor, leakage });
    expect(peakCurrent / ((2 / Math.E) * (15 / resistor))).toBeCloseTo(1, 6);
    expect(overshoot).toBe(0);
  });

  it("never passes V/R nor V·√(C/L), and comes to the first without leakage", () => {
    // law: resistance and inductance each bound the current
    const log = (min: number, max: number) =>
      fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
    fc.assert(
      fc.property(log(0.1, 100), log(1e-12, 1e-4), log(1e-9, 1e-5), (resistor, leakage, charge) => {
        const { peakCurrent, riseTime, overshoot, capacitance } = gateStep({ swing: 20, charge, resistor, leakage });
        expect(peakCurrent).toBeLessThanOrEqual((20 / resistor) * (1 + 1e-9));
        expect(peakCurrent).toBeLessThanOrEqual(20 * Math.sqrt(capacitance / leakage) * (1 + 1e-9));
        expect(riseTime).toBeGreaterThan(0);
        expect(overshoot).toBeGreaterThanOrEqual(0);
        expect(overshoot).toBeLessThan(1);
      }),
      { seed },
    );
  });

  it("refuses a gate that nothing slows", () => {
    expect(() => gateStep({ swing: 15, charge: 1e-7, resistor: 0, leakage: 0 })).toThrow("resistor or a leakage");
  });
});
