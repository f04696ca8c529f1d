import { describe, expect, it } from "vitest";
import {
  inceptionField,
  type PeekShape,
  paschenMinimum,
  paschenVoltage,
  peekDensityFactor,
  peekInception,
  relativeAirDensity,
} from "../../src/fields/air.ts";
import { relativeError } from "../numerics/within.ts";
import reference from "../reference/air.json" with { type: "json" };

const named = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);
const air = (pressure: number, celsius: number) => ({ pressure, temperature: celsius + 273.15, humidity: 0.5 });

describe("air density", () => {
  // published: Peek 1929, 3.92·b/(273 + t), read in a secondary source (test/reference/air.json)
  it.each(named("airDensityFactor.peek"))("Peek's factor meets $inputs", ({ inputs, value, tolerance_rel }) => {
    const { pressure, temperatureC } = inputs as { pressure: number; temperatureC: number };
    expect(relativeError(peekDensityFactor(air(pressure, temperatureC)), value)).toBeLessThan(tolerance_rel);
  });

  // law: both are pressure over temperature, 1 at their own reference air, so they differ by one factor everywhere, (298/293) within 0.1 %
  it("the standards' factor is 1 at 20 °C and stands in one ratio to Peek's", () => {
    expect(relativeAirDensity(air(101_300, 20))).toBeCloseTo(1, 12);
    expect(relativeError(peekDensityFactor(air(101_325, 25)), 1)).toBeLessThan(5e-4);
    for (const [pressure, celsius] of [
      [101_300, 20],
      [80_000, 35],
      [95_000, -10],
    ] as const) {
      const ratio = peekDensityFactor(air(pressure, celsius)) / relativeAirDensity(air(pressure, celsius));
      expect(relativeError(ratio, 298 / 293)).toBeLessThan(1e-3);
    }
  });

  it("refuses no air", () => {
    expect(() => relativeAirDensity(air(0, 20))).toThrow(/positive pressure/);
    expect(() => peekDensityFactor(air(1e5, -300))).toThrow(/positive pressure and temperature/);
  });
});

describe("peekInception", () => {
  // published: Peek 1929; the wire law read in a secondary source, the constants of cylinder and sphere from memory (test/reference/air.json)
  const shapes: Record<string, PeekShape> = {
    "peek.parallelWires": "wire",
    "peek.coaxialCylinder": "cylinder",
    "peek.sphere": "sphere",
  };
  const cases = reference.entries.filter((entry) => entry.quantity in shapes);
  it.each(cases)("meets $quantity at $inputs", ({ quantity, inputs, value }) => {
    const { radius, airDensityFactor } = inputs as { radius: number; airDensityFactor: number };
    const found = peekInception({ shape: shapes[quantity]!, radius, densityFactor: airDensityFactor });
    expect(relativeError(found, value)).toBeLessThan(1e-12);
  });

  // law: blunter surfaces and thinner air start lower
  it("falls with radius and with thin air", () => {
    const at = (radius: number, densityFactor: number) => peekInception({ shape: "sphere", radius, densityFactor });
    expect(at(0.05, 1)).toBeLessThan(at(0.01, 1));
    expect(at(0.05, 0.8)).toBeLessThan(at(0.05, 1));
  });

  it("refuses an edge", () => {
    expect(() => peekInception({ shape: "wire", radius: 0, densityFactor: 1 })).toThrow(/positive radius and density/);
  });
});

describe("inceptionField", () => {
  // law: the interval holds both laws on a polished surface and goes to 0.85 of the lower one
  it.each([0.0005, 0.005, 0.0375, 0.15])("holds both laws at a radius of %d m", (curvatureRadius) => {
    const here = air(101_325, 20);
    const { value, low, high } = inceptionField({ curvatureRadius, air: here });
    const laws = (["wire", "sphere"] as const).map((shape) =>
      peekInception({ shape, radius: curvatureRadius, densityFactor: peekDensityFactor(here) }),
    );
    expect(low).toBeCloseTo(0.85 * Math.min(...laws), 3);
    expect(high).toBe(Math.max(...laws));
    expect(value).toBeGreaterThan(low);
    expect(value).toBeLessThanOrEqual(high);
  });

  // published: "the laws differ by some per cent to 10 %" holds for the radii of top loads, here 20 to 150 mm (from memory)
  it.each([0.02, 0.0375, 0.15])("has laws within 10 %% at the radius of a top load, %d m", (radius) => {
    const [wire, sphere] = (["wire", "sphere"] as const).map((shape) =>
      peekInception({ shape, radius, densityFactor: 1 }),
    );
    expect(relativeError(wire!, sphere!)).toBeLessThan(0.1);
  });
});

describe("paschenVoltage", () => {
  // independent: closed form at 30 digits with the same coefficients (test/reference/air.json)
  it.each(named("paschen.voltage"))("meets $inputs", ({ inputs, value }) => {
    const { pressureDistance } = inputs as { pressureDistance: number };
    expect(relativeError(paschenVoltage({ pressure: 1e5, gap: pressureDistance / 1e5 }).voltage, value)).toBeLessThan(
      1e-12,
    );
  });
  it("meets the minimum, and no gap holds less", () => {
    const entry = named("paschen.minimum")[0]!;
    const { voltage, pressureGap } = paschenMinimum();
    expect(relativeError(voltage, entry.value)).toBeLessThan(1e-12);
    expect(relativeError(pressureGap, entry.pressureDistance!)).toBeLessThan(1e-12);
    for (const factor of [0.5, 0.9, 1.1, 3]) {
      expect(paschenVoltage({ pressure: 1, gap: factor * pressureGap }).voltage).toBeGreaterThan(voltage);
    }
  });

  // published: experimental minimum of air 327 V, quoted in a secondary source; the law lies 7 % below it
  it("lies within 10 % of the quoted experimental minimum", () =>
    expect(relativeError(paschenMinimum().voltage, 327)).toBeLessThan(0.1));

  // published: AIEE sphere-gap table, 250 mm spheres 9.8 mm apart, 30 kV peak (test/reference/air.json). Far beyond the fitted range: the
  // docstring's 16 % high is what this holds it to
  it("is out of its range, and high, at 10 mm in room air", () => {
    const gap = named("sphereGap.peakVoltage")[0]!;
    const { voltage, fitted } = paschenVoltage({ pressure: 101_325, gap: (gap.inputs as { gap: number }).gap });
    expect(fitted).toBe(false);
    expect(voltage / gap.value).toBeGreaterThan(1.1);
    expect(voltage / gap.value).toBeLessThan(1.2);
  });

  // law: the coefficients' range of field over pressure, 75 to 600 V/(Pa·m)
  it("knows its range", () => {
    expect(paschenVoltage({ pressure: 1, gap: 10 }).fitted).toBe(true);
    expect(paschenVoltage({ pressure: 1, gap: 20 }).fitted).toBe(false);
    expect(paschenVoltage({ pressure: 1, gap: 0.45 }).fitted).toBe(false);
    expect(() => paschenVoltage({ pressure: 1, gap: 0.4 })).toThrow(/exceed 0.41 Pa·m/);
  });
});
