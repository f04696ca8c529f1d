/** The self-resonance of bare solenoids against Medhurst's measurements. */
import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { medhurstCapacitance } from "../../src/fields/handbook/medhurst-capacitance.ts";
import { solve } from "../../src/workbench/solve.ts";

/** A bare winding of 400 turns, 100 mm in diameter, with its base on the ground plane, as Medhurst's coils stood on their earthed end. */
function bare(slender: number): Coil {
  const turns = 400;
  const length = 0.1 * slender;
  const wire = Math.min(0.8 * (length / turns), 0.0005);
  return {
    coilwright: 1,
    name: "bare",
    topload: [],
    site: { air: { temperature: 293.15, pressure: 101325, humidity: 0.5 }, people: [], objects: [] },
    secondary: {
      former: { outerDiameter: 0.1 - wire },
      wire: { bare: wire, overall: wire },
      turns,
      length,
      baseHeight: length / turns,
    },
  };
}

/** C in C = 1/(ω1²·L) with the inductance at uniform current: what Medhurst's H·D stands for. */
function effectiveCapacitance(coil: Coil): number {
  const { figures } = solve(coil);
  return 1 / ((2 * Math.PI * figures.get("secondary.f1")!.value) ** 2 * figures.get("secondary.inductance")!.value);
}

describe("a bare solenoid on the ground plane", () => {
  // published: R. G. Medhurst, Wireless Engineer 24 (1947), table of H, experimental, quoted accuracy 5 %, read in a secondary source.
  // Reported honestly: quasi-static theory over the table. The disagreement grows with length, as the reference notes say it does
  // (0.86 of theory at l/D = 5 there, on an ideal plane): our column of ratios is a guard, its first rows the comparison.
  const measured: [slender: number, ratio: number][] = [];
  it.each([1, 1.5, 2, 3, 4, 5])("of length %f diameters", (slender) => {
    const ratio = effectiveCapacitance(bare(slender)) / medhurstCapacitance({ length: 0.1 * slender, diameter: 0.1 });
    measured.push([slender, ratio]);
    expect(ratio, `theory is ${ratio.toFixed(3)} of the table`).toBeGreaterThan(0.8);
    expect(ratio, `theory is ${ratio.toFixed(3)} of the table`).toBeLessThan(1.25);
  });
  it("says what the disagreement is", () => {
    console.log(measured.map(([slender, ratio]) => `l/D ${slender}: ${ratio.toFixed(3)}`).join(", "));
  });
});
