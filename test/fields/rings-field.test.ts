import { describe, expect, it } from "vitest";
import { mutualOfCoaxialRings } from "../../src/fields/rings.ts";
import { fieldOfRing } from "../../src/fields/rings-field.ts";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import { relativeError } from "../numerics/within.ts";
import independent from "../reference/magnetics.json" with { type: "json" };

describe("fieldOfRing", () => {
  // independent: Biot and Savart's integral by mpmath at 50 digits (test/reference/magnetics.py); 2e-13 of |B| covers points beside the filament
  it.each(independent.fields)("equals Biot and Savart at r = $pointRadius, z = $pointHeight", (c) => {
    const { radial, axial } = fieldOfRing(c);
    const size = Math.hypot(c.radial, c.axial);
    expect(Math.abs(radial - c.radial) / size).toBeLessThan(2e-13);
    expect(Math.abs(axial - c.axial) / size).toBeLessThan(2e-13);
  });

  // law: on the axis B = µ0·a²/(2·(a² + z²)^1.5), radial part nothing
  it("meets the closed form on the axis", () => {
    const { radial, axial } = fieldOfRing({ radius: 0.2, pointRadius: 0, pointHeight: -0.1 });
    expect(radial).toBe(0);
    expect(relativeError(axial, (magneticConstant * 0.04) / (2 * 0.05 ** 1.5))).toBeLessThan(1e-14);
  });

  // law: the flux through a circle is its mutual inductance, so ∂M/∂r = 2πr·Bz and ∂M/∂z = −2πr·Br; 1e-7 is the central difference
  it("is the slope of the mutual inductance", () => {
    const [radius, pointRadius, pointHeight, step] = [0.11, 0.07, 0.03, 1e-5];
    const mutual = (r: number, z: number) => mutualOfCoaxialRings({ radiusA: radius, radiusB: r, separation: z });
    const { radial, axial } = fieldOfRing({ radius, pointRadius, pointHeight });
    const alongR = (mutual(pointRadius + step, pointHeight) - mutual(pointRadius - step, pointHeight)) / (2 * step);
    const alongZ = (mutual(pointRadius, pointHeight + step) - mutual(pointRadius, pointHeight - step)) / (2 * step);
    expect(relativeError(alongR / (2 * Math.PI * pointRadius), axial)).toBeLessThan(1e-7);
    expect(relativeError(-alongZ / (2 * Math.PI * pointRadius), radial)).toBeLessThan(1e-7);
  });

  // law: beside the filament the field circles it, µ0/(2π·distance)
  it("circles the filament close by", () => {
    const { radial, axial } = fieldOfRing({ radius: 1, pointRadius: 1, pointHeight: 1e-6 });
    expect(relativeError(Math.hypot(radial, axial), magneticConstant / (2 * Math.PI * 1e-6))).toBeLessThan(1e-4);
  });

  it("refuses the filament itself", () => {
    expect(() => fieldOfRing({ radius: 1, pointRadius: 1, pointHeight: 0 })).toThrow(/lies on the filament/);
    expect(() => fieldOfRing({ radius: 1, pointRadius: -1, pointHeight: 0 })).toThrow(/pointRadius/);
  });
});
