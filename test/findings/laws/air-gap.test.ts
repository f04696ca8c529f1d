import { describe, expect, it } from "vitest";
import { OutOfDomain } from "../../../src/catalogue/index.ts";
import { needleGapFor, needleGapSparkover, uniformGapBreakdown } from "../../../src/findings/laws/air-gap.ts";
import reference from "../../reference/air-gaps.json" with { type: "json" };

const entries = (quantity: string) => reference.entries.filter((entry) => entry.quantity === quantity);

describe("needleGapSparkover", () => {
  // published: American Institute of Electrical Engineers, needle gaps at 760 mmHg and 25 °C (read in a secondary source)
  it.each(entries("needleGap.peakVoltage").map(({ inputs, value }) => [inputs.gap, value]))(
    "holds the table's row of %d m",
    (gap, volts) => expect(needleGapSparkover({ gap, density: 1 })).toBeCloseTo(volts, 6),
  );

  // published: IEC 60060-1 rod-rod gap (from memory); it meets the needle table at 0.55 m within 2 %
  it.each(
    entries("rodGap.dcVoltage")
      .filter(({ inputs }) => inputs.gap >= 0.547)
      .map(({ inputs, value }) => [inputs.gap, value]),
  )("follows the rod gap beyond the table, at %d m", (gap, volts) =>
    expect(Math.abs(needleGapSparkover({ gap, density: 1 }) / volts - 1)).toBeLessThan(0.03),
  );

  // law: more gap and more air hold more
  it("rises with the gap, and in proportion to the air's density", () => {
    const gaps = [0.001, 0.0085, 0.02, 0.1, 0.3, 0.547, 0.6, 2];
    const held = gaps.map((gap) => needleGapSparkover({ gap, density: 1 }));
    expect([...held].sort((a, b) => a - b)).toEqual(held);
    expect(needleGapSparkover({ gap: 0.1, density: 0.8 })).toBeCloseTo(
      0.8 * needleGapSparkover({ gap: 0.1, density: 1 }),
      6,
    );
  });

  it("is inverted by needleGapFor", () => {
    for (const volts of [5e3, 40e3, 250e3, 600e3]) {
      const gap = needleGapFor({ volts, density: 0.95 });
      expect(Math.abs(needleGapSparkover({ gap, density: 0.95 }) / volts - 1)).toBeLessThan(1e-3);
    }
  });

  it("refuses a gap that is none", () => {
    expect(() => needleGapSparkover({ gap: 0, density: 1 })).toThrow(OutOfDomain);
    expect(() => needleGapFor({ volts: 0, density: 1 })).toThrow("volts must be positive, got 0 V");
  });
});

describe("uniformGapBreakdown", () => {
  // published: sphere gaps of 250 mm, nearly uniform where the gap is under a tenth of the sphere (read in a secondary source). 12 %: the
  // table's own 5 %, its 25 °C, and the short gaps, where it lies lowest
  it.each(
    entries("sphereGap.peakVoltage")
      .filter(({ inputs }) => "sphereDiameter" in inputs && inputs.sphereDiameter === 0.25 && inputs.gap < 0.025)
      .map(({ inputs, value }) => [inputs.gap, value]),
  )("agrees with spheres at %d m", (gap, volts) =>
    expect(Math.abs(uniformGapBreakdown({ gap, density: 1 }) / volts - 1)).toBeLessThan(0.12),
  );

  // published: IEC 60052 spheres of 50 mm (read in a secondary source), 3 % of the table and 6 % of the spheres' own field
  it.each(entries("sphereGap.peakVoltage.iec").map(({ inputs, value }) => [inputs.gap, value]))(
    "agrees with the standard's spheres at %d m",
    (gap, volts) => expect(Math.abs(uniformGapBreakdown({ gap, density: 1 }) / volts - 1)).toBeLessThan(0.09),
  );

  // law: no real gap holds more than a uniform one
  it("lies above the needle gap at every gap", () => {
    for (const gap of [0.001, 0.01, 0.05, 0.2, 0.5]) {
      expect(uniformGapBreakdown({ gap, density: 1 })).toBeGreaterThan(needleGapSparkover({ gap, density: 1 }));
    }
  });
});
