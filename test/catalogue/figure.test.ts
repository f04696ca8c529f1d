import { describe, expect, it } from "vitest";
import { figure, groups, OutOfDomain, quantities, sources, standingWords } from "../../src/catalogue/index.ts";
import { OutOfDomain as OutOfDomainOfNumerics } from "../../src/numerics/out-of-domain.ts";

/** published: the catalogue of names that stay, section Resonance: id and unit as agreed. */
const agreed = {
  m: ["secondary.wireLength"],
  H: [
    "secondary.inductance",
    "secondary.energyInductance",
    "secondary.terminalInductance",
    "primary.inductance",
    "tank.inductance",
    "coupling.mutual",
  ],
  Ω: ["secondary.resistanceDc", "secondary.resistanceAc", "primary.resistanceAc"],
  Hz: [
    "secondary.f1",
    "secondary.f2",
    "secondary.f3",
    "tank.frequency",
    "poles.lower",
    "poles.upper",
    "detuning.person",
  ],
  F: [
    "secondary.energyCapacitance",
    "secondary.terminalCapacitance",
    "topload.capacitanceIsolated",
    "topload.capacitanceInPlace",
    "tank.capacitance",
    "tuning.capacitorForMatch",
  ],
  "1": [
    "secondary.qUnloaded",
    "winding.turnVoltagePerVolt",
    "coupling.k",
    "coupling.kMode1",
    "tuning.ratio",
    "tuning.tapForMatch",
  ],
  "A/V": ["secondary.baseCurrentPerVolt"],
  "1/m": ["topload.peakFieldPerVolt", "winding.peakFieldPerVolt"],
  V: ["topload.breakoutVoltage"],
} as const;

describe("the catalogue", () => {
  it.each(Object.entries(agreed).flatMap(([unit, ids]) => ids.map((id) => [id, unit])))("gives %s in %s", (id, unit) =>
    expect(quantities.get(id)?.unit).toBe(unit),
  );

  // law: every entry can be shown and read
  it.each([...quantities.values()].map((quantity) => [quantity.id, quantity] as const))(
    "can say what %s is",
    (_id, quantity) => {
      expect(groups).toContain(quantity.group);
      expect(quantity.definition.length).toBeGreaterThan(10);
      expect(quantity.formula.length).toBeGreaterThan(5);
      expect(quantity.name.length).toBeLessThanOrEqual(30);
      expect(quantity.display.digits).toBeGreaterThanOrEqual(2);
    },
  );
});

describe("the sources", () => {
  it("each say who, what, and how far they may be trusted", () => {
    for (const [key, { author, title, says, standing }] of sources) {
      expect(key).toMatch(/^[a-z0-9]+(-[a-z0-9.]+)*$/);
      for (const words of [author, title, says]) expect(words.length).toBeGreaterThan(3);
      expect(standingWords[standing]).toBeDefined();
    }
  });

  // law: what only memory holds is never quoted as the standard
  it("mark the clauses of standards that nobody had open", () => {
    for (const key of ["iec-60060-1", "iec-60028", "iec-60479", "iec-60317"]) {
      expect(sources.get(key)?.standing).toBe("memory");
    }
  });
});

describe("figure", () => {
  it("takes unit and id from the catalogue", () => {
    expect(
      figure("tank.frequency", 227960, { from: ["tank.capacitance", "tank.inductance"], source: "lc-resonance" }),
    ).toEqual({
      id: "tank.frequency",
      value: 227960,
      unit: "Hz",
      from: ["tank.capacitance", "tank.inductance"],
      source: "lc-resonance",
      crossChecks: [],
    });
  });

  const parts = { from: [], source: "lc-resonance" } as const;
  it.each([
    ["a value that is no number", () => figure("tank.frequency", Number.NaN, parts), "must be finite, got NaN Hz"],
    ["a value without end", () => figure("tank.frequency", Number.POSITIVE_INFINITY, parts), "got Infinity Hz"],
    ["an unknown id", () => figure("tank.colour", 1, parts), "no quantity has the id tank.colour"],
    ["half an interval", () => figure("tank.frequency", 1, { ...parts, low: 0 }), "low ≤ value ≤ high"],
    ["an interval beside the value", () => figure("tank.frequency", 1, { ...parts, low: 2, high: 3 }), "2 ≤ 1 ≤ 3"],
  ])("refuses %s", (_what, make, message) => {
    expect(make).toThrow(OutOfDomain);
    expect(make).toThrow(message);
  });

  it("refuses a cross-check without a known source", () => {
    const check = { name: "x", value: 1, validity: "x", valid: true, source: "nobody" };
    expect(() => figure("tank.frequency", 1, { ...parts, crossChecks: [check] })).toThrow("unknown source nobody");
  });

  it("throws the same class that the layers below throw", () => expect(OutOfDomain).toBe(OutOfDomainOfNumerics));
});
