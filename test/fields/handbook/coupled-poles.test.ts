import { describe, expect, it } from "vitest";
import { beatOfPoles, coupledPoles } from "../../../src/fields/handbook/coupled-poles.ts";
import { relativeError } from "../../numerics/within.ts";
import reference from "../../reference/coupled-poles.json" with { type: "json" };

type Inputs = { f1: number; f2: number; k: number };
const named = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);
const polesOf = ({ f1, f2, k }: Inputs) => coupledPoles({ first: f1, second: f2, coupling: k });

describe("coupledPoles", () => {
  // independent: closed form at 30 digits, checked there by an eigenvalue solution (test/reference/coupled-poles.json)
  it.each(named("poles"))("meets $inputs", ({ inputs, value }) => {
    const { lower, upper } = polesOf(inputs as Inputs);
    const [below, above] = value as number[];
    expect(relativeError(lower, below!)).toBeLessThan(1e-12);
    expect(relativeError(upper, above!)).toBeLessThan(1e-12);
  });

  // law: uncoupled they are the two tunes; swapped circuits and the sign of k change nothing
  it("keeps the tunes without coupling and does not care about order or sign", () => {
    expect(coupledPoles({ first: 3e5, second: 1e5, coupling: 0 })).toEqual({
      lower: expect.closeTo(1e5, 6),
      upper: expect.closeTo(3e5, 6),
    });
    const poles = coupledPoles({ first: 2.1e5, second: 2e5, coupling: 0.15 });
    expect(coupledPoles({ first: 2e5, second: 2.1e5, coupling: -0.15 })).toEqual(poles);
  });

  // law: the product of the squares is f1²·f2²/(1 − k²), also where the closed form's difference would cancel
  it("keeps the product of the poles for tunes far apart", () => {
    const { lower, upper } = coupledPoles({ first: 1, second: 1e9, coupling: 0.3 });
    expect(relativeError(lower * upper, 1e9 / Math.sqrt(0.91))).toBeLessThan(1e-14);
    expect(relativeError(lower, 1)).toBeLessThan(1e-14);
  });

  it("refuses k of 1 and frequencies of nothing", () => {
    expect(() => coupledPoles({ first: 1e5, second: 1e5, coupling: 1 })).toThrow(/\|k\| < 1/);
    expect(() => coupledPoles({ first: 0, second: 1e5, coupling: 0.1 })).toThrow(/positive frequencies/);
  });
});

describe("beatOfPoles", () => {
  // independent: from the poles above at 30 digits; 1e-9 for the difference of near poles (test/reference/coupled-poles.json)
  it.each(named("beat.period"))("meets $inputs", (entry) => {
    const { period, transfer } = beatOfPoles(polesOf(entry.inputs as Inputs));
    expect(relativeError(period, entry.value as number)).toBeLessThan(1e-9);
    expect(relativeError(transfer, entry.transferTime!)).toBeLessThan(1e-9);
  });
  it("refuses poles in the wrong order", () =>
    expect(() => beatOfPoles({ lower: 2, upper: 1 })).toThrow(/lower < upper/));
});
