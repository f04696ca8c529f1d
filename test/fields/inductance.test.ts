import { describe, expect, it } from "vitest";
import {
  inductanceOfColumn,
  mutualToEachTurn,
  ringSetInductance,
  ringSetMutual,
  solenoidInductance,
  windingMatrixColumn,
  withShortedTurn,
} from "../../src/fields/inductance.ts";
import { equivalentRadius, equivalentRadiusOfRound, selfOfRing } from "../../src/fields/rings-self.ts";
import { magneticConstant } from "../../src/fields/vacuum.ts";
import { cholesky } from "../../src/numerics/eigen.ts";
import type { Ring } from "../../src/parts/shape.ts";
import { relativeError } from "../numerics/within.ts";
import coils from "../reference/coil-magnetics.json" with { type: "json" };
import sharedMutual from "../reference/mutual-inductance.json" with { type: "json" };
import sharedSelf from "../reference/self-inductance.json" with { type: "json" };
import { conductorOf, modeCurrent, primaryRings, windingOf } from "./coils.ts";

describe("solenoidInductance", () => {
  // independent: the ring sum at 30 digits, checked there by a second sum; per µ0, with and without internal flux (test/reference/self-inductance.json)
  const solenoids = sharedSelf.entries.filter((entry) =>
    /^roundWireSolenoid\.(external|withInternal)$/.test(entry.quantity),
  );
  it.each(solenoids)("equals the sum over rings, $quantity, $inputs", ({ quantity, inputs, value_over_mu0 }) => {
    const { meanDiameter, pitch, turns, wireDiameter } = inputs as Record<
      "meanDiameter" | "pitch" | "turns" | "wireDiameter",
      number
    >;
    const flux = quantity.endsWith("external") ? "external" : "internal";
    const found = solenoidInductance({
      radius: meanDiameter / 2,
      pitch,
      turns,
      equivalentRadius: equivalentRadiusOfRound({ diameter: wireDiameter, flux }),
    });
    expect(relativeError(found / magneticConstant, value_over_mu0!)).toBeLessThan(1e-12);
  });

  // independent: the model of test/reference/coil-magnetics.json; 2e-7 is the seven digits it prints
  it.each(coils.cases)("meets secondary.inductance of $name", ({ secondary, expected }) => {
    const found = solenoidInductance({ ...windingOf(secondary), equivalentRadius: secondary.wireDiameter / 2 });
    expect(relativeError(found, expected["secondary.inductance"])).toBeLessThan(2e-7);
  });

  // law: one turn is its self term; two turns are 2·(self + mutual)
  it("sums one and two turns by hand", () => {
    expect(inductanceOfColumn(Float64Array.of(3))).toBe(3);
    expect(inductanceOfColumn(Float64Array.of(3, 1))).toBe(8);
    expect(inductanceOfColumn(Float64Array.of(3, 1, 0.5))).toBe(14);
  });

  it("refuses half turns and pitches that are not positive", () => {
    expect(() => windingMatrixColumn({ radius: 0.05, pitch: 4e-4, turns: 10.5, equivalentRadius: 1e-4 })).toThrow(
      /whole turns/,
    );
    expect(() => windingMatrixColumn({ radius: 0.05, pitch: 0, turns: 10, equivalentRadius: 1e-4 })).toThrow(
      /positive pitch/,
    );
  });
});

describe("windingMatrixColumn", () => {
  // law: energy is positive for any current, so the matrix has a Cholesky factor
  it.each([
    { pitch: 2.05e-4, wire: 2e-4 },
    { pitch: 1e-3, wire: 2e-4 },
  ])("makes a positive definite matrix, pitch $pitch", ({ pitch, wire }) => {
    const turns = 60;
    const column = windingMatrixColumn({ radius: 0.05, pitch, turns, equivalentRadius: wire / 2 });
    const matrix = Float64Array.from(
      { length: turns * turns },
      (_, i) => column[Math.abs(Math.floor(i / turns) - (i % turns))]!,
    );
    expect(() => cholesky(matrix, turns)).not.toThrow();
  });
});

describe("ringSetInductance and ringSetMutual", () => {
  const byCoil = new Map<string, typeof sharedMutual.entries>();
  for (const entry of sharedMutual.entries) {
    const kind = (entry.inputs as { kind?: string }).kind;
    if (kind) byCoil.set(kind, [...(byCoil.get(kind) ?? []), entry]);
  }

  // independent: ring sums at 30 digits, per µ0, checked there by a second sum (test/reference/mutual-inductance.json)
  it.each([...byCoil])("equal the sums over rings of the primary %s", (_, entries) => {
    const named = (quantity: string) => entries.find((entry) => entry.quantity === quantity)!;
    const mutual = named("mutual.coils");
    const { primary, secondary } = mutual.inputs as unknown as { primary: SharedPrimary; secondary: SharedSecondary };
    const rings = sharedRings(primary);
    const own = ringSetInductance(rings, (ring) =>
      selfOfRing({ ...ring, equivalentRadius: primary.conductorDiameter / 2 }),
    );
    expect(relativeError(own / magneticConstant, named("primary.ringSum.external").value_over_mu0!)).toBeLessThan(
      1e-12,
    );
    const winding = { radius: secondary.meanDiameter / 2, pitch: secondary.pitch, turns: secondary.turns };
    const each = mutualToEachTurn({ rings, winding, firstHeight: secondary.firstTurnHeight });
    const sum = each.reduce((a, b) => a + b, 0);
    expect(relativeError(sum / magneticConstant, mutual.value_over_mu0!)).toBeLessThan(1e-12);
    const other = solenoidInductance({ ...winding, equivalentRadius: secondary.wireDiameter / 2 });
    expect(relativeError(sum / Math.sqrt(own * other), named("coupling.k").value)).toBeLessThan(1e-11);
    const turns = Array.from({ length: winding.turns }, (_, j): Ring => {
      return { radius: winding.radius, height: secondary.firstTurnHeight + j * winding.pitch, share: 1 };
    });
    expect(relativeError(ringSetMutual(rings, turns), sum)).toBeLessThan(1e-12);
  });

  // independent: the model of test/reference/coil-magnetics.json; 1e-6 is its digits and, for M, its numerical error
  it.each(coils.cases)(
    "meet primary.inductance, coupling.mutual and coupling.k of $name",
    ({ primary, secondary, expected }) => {
      const rings = primaryRings(primary);
      const equivalent = equivalentRadius(conductorOf(primary));
      const own = ringSetInductance(rings, (ring) => selfOfRing({ ...ring, equivalentRadius: equivalent }));
      expect(relativeError(own, expected["primary.inductance"])).toBeLessThan(2e-7);
      const winding = windingOf(secondary);
      const each = mutualToEachTurn({ rings, winding, firstHeight: secondary.baseHeight });
      const sum = each.reduce((a, b) => a + b, 0);
      expect(relativeError(sum, expected["coupling.mutual"])).toBeLessThan(1e-6);
      expect(
        relativeError(sum / Math.sqrt(own * expected["secondary.inductance"]), expected["coupling.k"]),
      ).toBeLessThan(1e-6);
    },
  );

  // independent: mode-1 current found from the same model's voltages (test/reference/mode-currents.py); 1e-4 because
  // it is open whether that model takes the current at the middle or at the foot of a turn
  it.each(coils.cases)(
    "meet coupling.kMode1 of $name with the current of mode 1",
    ({ primary, secondary, expected, modeCurrent: polynomial }) => {
      const current = modeCurrent(polynomial, secondary.turns);
      const each = mutualToEachTurn({
        rings: primaryRings(primary),
        winding: windingOf(secondary),
        firstHeight: secondary.baseHeight,
      });
      const mutual = each.reduce((sum, m, j) => sum + m * current[j]!, 0);
      const coupling = mutual / Math.sqrt(expected["primary.inductance"] * expected["secondary.energyInductance"]);
      expect(relativeError(coupling, expected["coupling.kMode1"])).toBeLessThan(1e-4);
    },
  );

  // law: a partial last turn adds nothing at share 0, the full turn at 1, and its mutual grows in proportion
  it("take a partial last turn between nothing and a whole one", () => {
    const inner: Ring[] = [0.1, 0.113].map((radius) => ({ radius, height: 0.2, share: 1 }));
    const other: Ring[] = [{ radius: 0.05, height: 0.25, share: 1 }];
    const own = (share: number) =>
      ringSetInductance([...inner, { radius: 0.126, height: 0.2, share }], (ring) =>
        selfOfRing({ ...ring, equivalentRadius: 0.004 }),
      );
    const toOther = (share: number) => ringSetMutual([{ radius: 0.126, height: 0.2, share }], other);
    expect(own(0)).toBe(ringSetInductance(inner, (ring) => selfOfRing({ ...ring, equivalentRadius: 0.004 })));
    expect(own(0.5)).toBeGreaterThan(own(0));
    expect(own(1)).toBeGreaterThan(own(0.5));
    expect(relativeError(own(1 - 1e-10), own(1))).toBeLessThan(1e-8);
    expect(relativeError(toOther(0.3), 0.3 * toOther(1))).toBeLessThan(1e-15);
  });

  it("refuse rings that coincide", () => {
    const ring: Ring = { radius: 0.1, height: 0.2, share: 1 };
    expect(() => ringSetInductance([ring, { ...ring }], () => 1e-6)).toThrow(/coincide at height 0.2 m/);
    expect(() => ringSetMutual([ring], [{ ...ring }])).toThrow(/coincide/);
    const winding = { radius: 0.1, pitch: 0.1, turns: 3 };
    expect(() => mutualToEachTurn({ rings: [ring], winding, firstHeight: 0 })).toThrow(/coincide/);
  });
});

describe("withShortedTurn", () => {
  // law: two identical rings in one place, one of them shorted, leave nothing; a far ring changes nothing
  it("leaves nothing under perfect coupling and everything under none", () => {
    expect(withShortedTurn({ inductance: 2e-6, toFirst: 2e-6, toSecond: 2e-6, ringInductance: 2e-6 })).toBe(0);
    expect(withShortedTurn({ inductance: 2e-6, toFirst: 0, toSecond: 0, ringInductance: 2e-6 })).toBe(2e-6);
  });

  // law: the reduced pair is the Schur complement of the three circuits, so its determinant is det(L)/L_ring
  it("is the Schur complement of the ring", () => {
    const [L1, L2, L3, M12, M13, M23] = [5, 7, 3, 1.2, 0.9, -0.4];
    const det = L1 * (L2 * L3 - M23 * M23) - M12 * (M12 * L3 - M23 * M13) + M13 * (M12 * M23 - L2 * M13);
    const first = withShortedTurn({ inductance: L1, toFirst: M13, toSecond: M13, ringInductance: L3 });
    const second = withShortedTurn({ inductance: L2, toFirst: M23, toSecond: M23, ringInductance: L3 });
    const mutual = withShortedTurn({ inductance: M12, toFirst: M13, toSecond: M23, ringInductance: L3 });
    expect(first * second - mutual * mutual).toBeCloseTo(det / L3, 12);
  });

  it("refuses a ring without inductance", () => {
    expect(() => withShortedTurn({ inductance: 1, toFirst: 1, toSecond: 1, ringInductance: 0 })).toThrow(
      /ring's inductance/,
    );
  });
});

interface SharedPrimary {
  turns: number;
  firstTurnRadius: number;
  firstTurnHeight: number;
  pitch: number;
  angleDeg: number;
  conductorDiameter: number;
}
interface SharedSecondary {
  meanDiameter: number;
  turns: number;
  pitch: number;
  firstTurnHeight: number;
  wireDiameter: number;
}

function sharedRings(primary: SharedPrimary): Ring[] {
  const angle = (primary.angleDeg * Math.PI) / 180;
  return Array.from({ length: primary.turns }, (_, i) => ({
    radius: primary.firstTurnRadius + i * primary.pitch * Math.cos(angle),
    height: primary.firstTurnHeight + i * primary.pitch * Math.sin(angle),
    share: 1,
  }));
}
