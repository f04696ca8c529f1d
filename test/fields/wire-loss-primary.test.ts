import { describe, expect, it } from "vitest";
import { ringSetInductance } from "../../src/fields/inductance.ts";
import { equivalentRadiusOfTrace, selfOfRing } from "../../src/fields/rings-self.ts";
import { copperResistivity20, dcResistance, skinDepth } from "../../src/fields/wire-loss.ts";
import { ringsLoss } from "../../src/fields/wire-loss-rings.ts";
import { traceLoss } from "../../src/fields/wire-loss-trace.ts";
import { windingLoss } from "../../src/fields/wire-loss-winding.ts";
import type { Ring } from "../../src/parts/shape.ts";
import { relativeError } from "../numerics/within.ts";
import reference from "../reference/trace-loss.json" with { type: "json" };

const resistivity = copperResistivity20;
const spiral = (share = 1): Ring[] =>
  [0.031, 0.035, 0.039, 0.043, 0.047].map((radius, i) => ({ radius, height: 0.025, share: i === 4 ? share : 1 }));

describe("ringsLoss", () => {
  // independent: the same turns as a winding, whose fields are added by Toeplitz products
  it("agrees with the winding's loss on an even helix", () => {
    const rings: Ring[] = Array.from({ length: 40 }, (_, i) => ({ radius: 0.1, height: 0.2 + i * 0.012, share: 1 }));
    const found = ringsLoss({ rings, diameter: 0.008, frequency: 2e5, resistivity });
    const winding = { radius: 0.1, pitch: 0.012, turns: 40 };
    const current = new Float64Array(40).fill(1);
    const other = windingLoss({ winding, wireDiameter: 0.008, frequency: 2e5, resistivity, current });
    // The helix is longer than its rings by half the square of pitch over circumference.
    expect(relativeError(found.resistanceAc * (other.wireLength / found.length), other.resistanceAc)).toBeLessThan(
      1e-10,
    );
  });

  // law: one turn alone has the skin effect only, ρ·l/(π·d·δ) for thick tube; the next term is of order δ/d
  it("is the surface resistance of a tube for one turn alone", () => {
    const rings: Ring[] = [{ radius: 0.2, height: 0, share: 1 }];
    const { resistanceAc, resistanceSkin, length } = ringsLoss({ rings, diameter: 0.01, frequency: 3e5, resistivity });
    const depth = skinDepth({ frequency: 3e5, resistivity });
    expect(resistanceAc).toBe(resistanceSkin);
    expect(relativeError(resistanceAc, (resistivity * length) / (Math.PI * 0.01 * depth))).toBeLessThan(
      2 * (depth / 0.01),
    );
  });

  // law: a partial turn that shrinks to nothing leaves what the others lose
  it("forgets a last turn of share 0", () => {
    const rings = spiral(0);
    const others = ringsLoss({ rings: rings.slice(0, 4), diameter: 0.002, frequency: 2e5, resistivity });
    expect(ringsLoss({ rings, diameter: 0.002, frequency: 2e5, resistivity })).toEqual(others);
  });

  it("refuses rings that coincide", () => {
    const ring: Ring = { radius: 0.1, height: 0, share: 1 };
    expect(() => ringsLoss({ rings: [ring, { ...ring }], diameter: 0.01, frequency: 1e5, resistivity })).toThrow(
      /coincide/,
    );
  });
});

describe("traceLoss", () => {
  // independent: a straight trace cut into 440 filaments over width and thickness (test/reference/trace-loss.py). The docstring's promise:
  // 0.3 % up to one skin depth of thickness, 3 % high at two. The ring is large, so that it is straight to 1e-4
  it.each(reference.entries)(
    "meets a straight trace $width × $thickness at $frequency Hz",
    ({ width, thickness, frequency, value }) => {
      const { resistanceAc } = traceLoss({
        rings: [{ radius: 2, height: 0, share: 1 }],
        width,
        thickness,
        frequency,
        resistivity,
      });
      const found = resistanceAc / ((resistivity * 4 * Math.PI) / (width * thickness));
      const depths = thickness / skinDepth({ frequency, resistivity });
      expect(found / value - 1).toBeGreaterThan(-3e-3);
      expect(found / value - 1).toBeLessThan(depths > 1.2 ? 0.035 : 3e-3);
    },
  );

  // law: at low frequency the current follows the shortest way round, 1/R = Σ t·dr/(2π·ρ·r) = t/(2πρ)·ln(outer/inner) turn by turn
  it("becomes the direct-current resistance of rings at low frequency", () => {
    const { resistanceAc } = traceLoss({ rings: spiral(), width: 3e-3, thickness: 7e-5, frequency: 1, resistivity });
    const rings = spiral().map(
      ({ radius }) => (2 * Math.PI * resistivity) / (7e-5 * Math.log((radius + 1.5e-3) / (radius - 1.5e-3))),
    );
    const sum = rings.reduce((a, b) => a + b, 0);
    expect(relativeError(resistanceAc, sum)).toBeLessThan(1e-4);
  });

  // law: resistance rises and inductance falls with frequency for any passive conductor (Foster); both ends near the ring sum at uniform current
  it("rises in resistance and falls in inductance with frequency", () => {
    const found = [1e4, 1e5, 3e5, 1e6].map((frequency) =>
      traceLoss({ rings: spiral(), width: 3e-3, thickness: 7e-5, frequency, resistivity }),
    );
    for (let i = 1; i < found.length; i++) {
      expect(found[i]!.resistanceAc).toBeGreaterThan(found[i - 1]!.resistanceAc);
      expect(found[i]!.inductance).toBeLessThan(found[i - 1]!.inductance);
    }
    const equivalentRadius = equivalentRadiusOfTrace({ width: 3e-3, thickness: 7e-5 });
    const uniform = ringSetInductance(spiral(), (ring) => selfOfRing({ ...ring, equivalentRadius }));
    // What the docstring of equivalentRadiusOfTrace says of the two ends.
    expect(found[0]!.inductance / uniform - 1).toBeGreaterThan(0.005);
    expect(found[0]!.inductance / uniform - 1).toBeLessThan(0.012);
    expect(found[3]!.inductance / uniform - 1).toBeGreaterThan(-0.022);
    expect(found[3]!.inductance / uniform - 1).toBeLessThan(-0.012);
  });

  // law: turns far apart lose as many times what one loses; many turns take coarser strips, which may cost 1 %
  it("adds up turns that are far apart, however many", () => {
    const at = (turns: number) => {
      const rings = Array.from({ length: turns }, (_, i): Ring => ({ radius: 0.05, height: 2 * i, share: 1 }));
      return traceLoss({ rings, width: 3e-3, thickness: 7e-5, frequency: 3e5, resistivity }).resistanceAc;
    };
    expect(relativeError(at(3), 3 * at(1))).toBeLessThan(1e-6);
    expect(relativeError(at(20), 20 * at(1))).toBeLessThan(0.01);
  });

  // law: half a last turn lies between none and a whole one, in both figures
  it("takes a partial last turn between nothing and a whole one", () => {
    const at = (rings: Ring[]) => traceLoss({ rings, width: 3e-3, thickness: 7e-5, frequency: 5e5, resistivity });
    const [none, half, whole] = [at(spiral().slice(0, 4)), at(spiral(0.5)), at(spiral())];
    expect(half.resistanceAc).toBeGreaterThan(none.resistanceAc);
    expect(half.resistanceAc).toBeLessThan(whole.resistanceAc);
    expect(half.inductance).toBeGreaterThan(none.inductance);
    expect(half.inductance).toBeLessThan(whole.inductance);
  });

  // law: a trace squeezed into a nearly square section at low frequency is a bar, whose direct-current resistance is ρ·l/(w·t)
  it("agrees with a bar of the same section at low frequency", () => {
    const { resistanceAc } = traceLoss({
      rings: [{ radius: 1, height: 0, share: 1 }],
      width: 1e-3,
      thickness: 1e-4,
      frequency: 1,
      resistivity,
    });
    const bar = dcResistance({ diameter: Math.sqrt((4 * 1e-7) / Math.PI), length: 2 * Math.PI, resistivity });
    expect(relativeError(resistanceAc, bar)).toBeLessThan(1e-5);
  });

  it("refuses traces that overlap, cross the axis or are no traces", () => {
    const ring: Ring = { radius: 0.1, height: 0, share: 1 };
    const common = { width: 3e-3, thickness: 7e-5, frequency: 1e5, resistivity };
    expect(() => traceLoss({ ...common, rings: [ring, { ...ring, radius: 0.102 }] })).toThrow(/overlap/);
    expect(() => traceLoss({ ...common, rings: [{ ...ring, radius: 1e-3 }] })).toThrow(/crosses the axis/);
    expect(() => traceLoss({ ...common, rings: [ring], thickness: 1e-3 })).toThrow(/width\/10/);
    expect(() => traceLoss({ ...common, rings: [] })).toThrow(/needs rings/);
  });
});
