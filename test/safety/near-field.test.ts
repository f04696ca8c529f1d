import { describe, expect, it } from "vitest";
import {
  electricField,
  emissionLimit,
  farField,
  farthestOver,
  magneticField,
  quasiStaticTo,
} from "../../src/safety/index.ts";
import { entry, numberOf } from "./reference.ts";

const source = [{ charge: 2.4e-6, height: 1.2 }];

describe("electricField", () => {
  // independent: E = 2qh/(4πε0(r² + h²)^1.5) at the floor, worked out beside test/reference/safety.json
  it("of a charge and its image is 381 V/m peak at 5 m", () => {
    expect(electricField(source, { radius: 5, height: 0 })).toBeCloseTo(
      numberOf("safety", "quasi-static E at ground"),
      1,
    );
  });

  // independent: the same entry, solved for the public level of ICNIRP 2010
  it("falls to 83 V/m rms at 7.5 m", () => {
    const field = (radius: number) => electricField(source, { radius, height: 0 }) / Math.SQRT2;
    expect(farthestOver({ field, level: 83, from: 0.1, to: 100 })).toBeCloseTo(
      numberOf("safety", "distance where that source falls to 83 V/m rms"),
      2,
    );
  });

  // law: superposition; a conducting floor has no tangential field; far away the field falls with the cube
  it("adds up, stands upright on the floor, and falls with the cube", () => {
    const two = [...source, { charge: 1e-6, height: 0.3 }];
    const at = { radius: 3, height: 0 };
    expect(electricField(two, at)).toBeCloseTo(electricField(source, at) + electricField(two.slice(1), at), 9);
    expect(
      electricField(source, { radius: 80, height: 0 }) / electricField(source, { radius: 40, height: 0 }),
    ).toBeCloseTo(1 / 8, 3);
    expect(() => electricField(source, { radius: 0, height: 0 })).toThrow("radius > 0");
  });
});

describe("magneticField", () => {
  // law: a dipole far away in its plane, m/(4πr³); on the axis of a ring I·a²/(2(a² + z²)^1.5)
  it("is a dipole's far away and a ring's on the axis", () => {
    const ring = [{ radius: 0.1, height: 1, turns: 6, current: 200 }];
    const moment = 6 * 200 * Math.PI * 0.1 ** 2;
    expect(magneticField(ring, { radius: 8, height: 1 }) / (moment / (4 * Math.PI * 8 ** 3))).toBeCloseTo(1, 3);
    expect(magneticField(ring, { radius: 0, height: 1.5 })).toBeCloseTo(
      (6 * 200 * 0.01) / (2 * (0.01 + 0.25) ** 1.5),
      6,
    );
  });
});

describe("farthestOver", () => {
  it("is not hidden by a ring of lower field, and says the ends", () => {
    const field = (r: number) => (r < 1 ? 10 : r < 2 ? 1 : r < 3 ? 8 : 0);
    expect(farthestOver({ field, level: 5, from: 0.1, to: 50 })).toBeCloseTo(3, 3);
    expect(farthestOver({ field, level: 50, from: 0.1, to: 50 })).toBe(0.1);
    expect(farthestOver({ field: () => 9, level: 5, from: 0.1, to: 50 })).toBe(50);
  });
});

describe("farField", () => {
  // independent: short vertical source over ground at 200 kHz and 300 m, worked out beside the entry
  it("of the bare source is 2.66 mV/m peak at 300 m", () => {
    expect(1e6 * farField(source, { distance: 300, frequency: 200e3 })).toBeCloseTo(
      numberOf("safety", "field of the bare source above at 300 m"),
      0,
    );
  });

  // law: near by it is the quasi-static field
  it("near by is the quasi-static field", () => {
    expect(
      farField(source, { distance: 20, frequency: 10e3 }) / electricField(source, { radius: 20, height: 0 }),
    ).toBeCloseTo(1, 1);
    expect(quasiStaticTo(200e3)).toBeCloseTo(23.9, 1);
  });
});

describe("emissionLimit", () => {
  // published: 47 CFR 15.209(a), quoted: 2400/F(kHz) µV/m at 300 m, 24000/F at 30 m, 30 µV/m at 30 m
  it("is that of 47 CFR 15.209", () => {
    const [low, middle] = ["9-490 kHz", "490-1705 kHz"].map(
      (range) => entry("safety", "FCC general emission limit", range).value as { c: number },
    );
    for (const kilohertz of [9, 100, 200, 489]) {
      expect(1e6 * emissionLimit(kilohertz * 1e3)!.level).toBeCloseTo(low!.c / kilohertz, 9);
    }
    expect(1e6 * emissionLimit(200e3)!.level).toBeCloseTo(numberOf("safety", "limit at 200 kHz"), 9);
    expect(emissionLimit(1e6)).toEqual({ level: expect.closeTo(middle!.c * 1e-9, 12), distance: 30 });
    expect(1e6 * emissionLimit(2e6)!.level).toBeCloseTo(numberOf("safety", "FCC general emission limit", "1.705"), 9);
    expect(emissionLimit(8e3)).toBeUndefined();
  });
});
