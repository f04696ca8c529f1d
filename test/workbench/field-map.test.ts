import { describe, expect, it } from "vitest";
import { fieldMap } from "../../src/workbench/field-map.ts";
import { cases, coilOf } from "../resonator/open-cases.ts";

const coil = coilOf(cases[0]!);
const map = fieldMap(coil, { radius: 0.6, height: 1.2, columns: 61, rows: 121 });
const at = (values: Float64Array, r: number, z: number) => values[Math.round(z * 100) * 61 + Math.round(r * 100)]!;

describe("fieldMap", () => {
  it("holds finite numbers only, with every potential between earth and top", () => {
    expect(map.potential.every((value) => value > -0.02 && value <= 1)).toBe(true);
    expect(map.field.every((value) => Number.isFinite(value) && value >= 0)).toBe(true);
  });
  // law: the boundary conditions of the solution itself
  it("is zero on the ground, one in the top load, and follows the winding between", () => {
    for (const r of [0, 0.2, 0.5]) expect(at(map.potential, r, 0)).toBeCloseTo(0, 6);
    expect(at(map.potential, 0.1, 0.58)).toBe(1);
    expect(at(map.field, 0.1, 0.58)).toBe(0);
    const half = at(map.potential, 0.05, 0.34);
    expect(half).toBeGreaterThan(0.45);
    expect(half).toBeLessThan(0.6);
  });
  // law: far from the coil it is the dipole of charge and image, falling with the cube of the distance
  it("falls with distance", () => {
    expect(at(map.potential, 0.3, 0.58)).toBeGreaterThan(at(map.potential, 0.45, 0.58));
    expect(at(map.potential, 0.45, 0.58)).toBeGreaterThan(at(map.potential, 0.6, 0.58));
  });
});
