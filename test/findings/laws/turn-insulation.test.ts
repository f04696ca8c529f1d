import { describe, expect, it } from "vitest";
import { OutOfDomain } from "../../../src/catalogue/index.ts";
import {
  enamelBreakdown,
  partialDischargeInception,
  paschenMinimum,
} from "../../../src/findings/laws/turn-insulation.ts";

describe("partialDischargeInception", () => {
  // published: 480 V rms for enamel of 37 µm on the diameter, after Dakin's law (worked figure, from memory)
  it("gives the worked figure", () =>
    expect(partialDischargeInception({ bare: 0.315e-3, overall: 0.352e-3 }) / Math.SQRT2).toBeCloseTo(480, -1));

  // law: between the least voltage that breaks any gap and the breakdown of the enamel
  it("lies between Paschen's minimum and the enamel's breakdown for every usual wire", () => {
    for (const enamel of [15e-6, 25e-6, 40e-6, 80e-6]) {
      const volts = partialDischargeInception({ bare: 0.3e-3, overall: 0.3e-3 + enamel });
      expect(volts).toBeGreaterThan(paschenMinimum);
      expect(volts).toBeLessThan(enamelBreakdown);
    }
  });

  it("refuses bare wire", () =>
    expect(() => partialDischargeInception({ bare: 0.3e-3, overall: 0.3e-3 })).toThrow(OutOfDomain));
});
