import { describe, expect, it } from "vitest";
import { medhurstResistanceRatio } from "../../src/fields/handbook/medhurst-resistance.ts";
import { fieldOfRing } from "../../src/fields/rings-field.ts";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import { copperResistivity20, skinDepth, transverseLossFactor } from "../../src/fields/wire-loss.ts";
import { windingLoss } from "../../src/fields/wire-loss-winding.ts";
import { relativeError } from "../numerics/within.ts";
import coils from "../reference/coil-magnetics.json" with { type: "json" };
import { modeCurrent, windingOf } from "./coils.ts";

describe("windingLoss", () => {
  // independent: the model of test/reference/coil-magnetics.json. Length and d.c. to its digits; skin and proximity within 1e-4, since the
  // current of mode 1 had to be found again from eleven of its voltages (test/reference/mode-currents.py)
  it.each(coils.cases)(
    "meets wire length, d.c., skin and a.c. resistance of $name",
    ({ secondary, expected, modeCurrent: polynomial }) => {
      const found = windingLoss({
        winding: windingOf(secondary),
        wireDiameter: secondary.wireDiameter,
        frequency: expected["secondary.f1"],
        resistivity: copperResistivity20,
        current: modeCurrent(polynomial, secondary.turns),
      });
      expect(relativeError(found.wireLength, expected["secondary.wireLength"])).toBeLessThan(2e-7);
      expect(relativeError(found.resistanceDc, expected["secondary.resistanceDc"])).toBeLessThan(2e-7);
      expect(relativeError(found.resistanceSkin, expected["secondary.resistanceSkin"])).toBeLessThan(1e-4);
      expect(relativeError(found.resistanceAc, expected["secondary.resistanceAc"])).toBeLessThan(1e-4);
    },
  );

  // independent: the field at each turn summed ring by ring through the checked front; 1e-10 is rounding of the transform
  it("adds up the field ring by ring", () => {
    const winding = { radius: 0.05, pitch: 5e-4, turns: 80 };
    const current = Float64Array.from({ length: 80 }, (_, j) => Math.cos(0.015 * j));
    const [wireDiameter, frequency] = [4e-4, 3e5];
    const found = windingLoss({ winding, wireDiameter, frequency, resistivity: copperResistivity20, current });
    const depth = skinDepth({ frequency, resistivity: copperResistivity20 });
    let squares = 0;
    for (let i = 0; i < 80; i++) {
      let [radial, axial] = [0, 0];
      for (let j = 0; j < 80; j++) {
        if (j === i) continue;
        const field = fieldOfRing({ radius: 0.05, pointRadius: 0.05, pointHeight: (i - j) * 5e-4 });
        radial += current[j]! * field.radial;
        axial += current[j]! * field.axial;
      }
      squares += (radial ** 2 + axial ** 2) / magneticConstant ** 2;
    }
    const perSquare = transverseLossFactor({ diameter: wireDiameter, skinDepth: depth, frequency });
    const proximity = (2 * perSquare * squares * found.wireLength) / 80;
    expect(relativeError(found.resistanceAc - found.resistanceSkin, proximity)).toBeLessThan(1e-10);
  });

  // published: Medhurst's table, experimental. The bounds are the docstring of transverseLossFactor: what orthogonality is known to miss
  it.each([
    { fill: 0.3, ratio: 1, low: 0.92, high: 1.03 },
    { fill: 0.5, ratio: 0.4, low: 0.95, high: 1.13 },
    { fill: 0.5, ratio: 4, low: 0.95, high: 1.13 },
    { fill: 0.9, ratio: 0.4, low: 0.63, high: 1.5 },
    { fill: 0.9, ratio: 4, low: 0.63, high: 1.5 },
  ])("lies as near Medhurst's experiments as is known, wire/pitch $fill, l/D $ratio", ({ fill, ratio, low, high }) => {
    const [turns, wireDiameter, frequency] = [200, 1e-3, 2e7];
    const length = (turns * wireDiameter) / fill;
    const diameter = length / ratio;
    const { resistanceSkin, resistanceAc } = windingLoss({
      winding: { radius: diameter / 2, pitch: length / turns, turns },
      wireDiameter,
      frequency,
      resistivity: copperResistivity20,
      current: new Float64Array(turns).fill(1),
    });
    const table = medhurstResistanceRatio({ length, diameter, wireDiameter, pitch: length / turns });
    expect(resistanceAc / resistanceSkin / table).toBeGreaterThan(low);
    expect(resistanceAc / resistanceSkin / table).toBeLessThan(high);
  });

  it("refuses a current that does not fit the turns", () => {
    const winding = { radius: 0.05, pitch: 5e-4, turns: 80 };
    const current = new Float64Array(79);
    expect(() => windingLoss({ winding, wireDiameter: 4e-4, frequency: 1e5, resistivity: 1.7e-8, current })).toThrow(
      /80 turns, got 79/,
    );
  });
});
