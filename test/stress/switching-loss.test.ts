import { describe, expect, it } from "vitest";
import { turnOffEnergy, turnOnEnergy, turnOnOverTurnOff } from "../../src/stress/index.ts";

const turnOff = { energy: 0.6e-3, atCurrent: 60, atVoltage: 400 };

describe("turnOffEnergy", () => {
  it("is the data sheet's at the data sheet's point, and in proportion to the current", () => {
    // law: the scaling is anchored at the point and linear in current
    expect(turnOffEnergy({ turnOff, current: 60, voltage: 400 })).toBeCloseTo(0.6e-3, 15);
    expect(turnOffEnergy({ turnOff, current: 30, voltage: 400 })).toBeCloseTo(0.3e-3, 15);
    expect(turnOffEnergy({ turnOff, current: 0, voltage: 400 })).toBe(0);
  });

  it("falls with the voltage by an exponent of 1.3 to 1.4", () => {
    // published: application manuals, from memory (test/reference/parts.json, "turn-off energy scaling")
    const ratio = turnOffEnergy({ turnOff, current: 60, voltage: 200 }) / 0.6e-3;
    expect(ratio).toBeGreaterThan(0.5 ** 1.4);
    expect(ratio).toBeLessThan(0.5 ** 1.3);
  });

  it("does not mind which way the current flows, and refuses an empty point", () => {
    expect(turnOffEnergy({ turnOff, current: -60, voltage: 400 })).toBe(
      turnOffEnergy({ turnOff, current: 60, voltage: 400 }),
    );
    expect(() => turnOffEnergy({ turnOff: { ...turnOff, atCurrent: 0 }, current: 1, voltage: 1 })).toThrow(
      "data-sheet point",
    );
  });

  it("is taken for turn-on too, to a factor of two either way", () => {
    // common practice, no source
    const at = { turnOff, current: 40, voltage: 325 };
    expect(turnOnEnergy(at) / turnOffEnergy(at)).toBe(turnOnOverTurnOff.taken);
    expect(turnOnOverTurnOff.greatest / turnOnOverTurnOff.least).toBe(4);
  });
});
