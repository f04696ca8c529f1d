import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import type { BurstSetting, BurstStudy } from "../../src/workbench/burst-contract.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import { figureOf, lantern, lanternSolved, pointVoltage, solvedWith, studyOf } from "./burst-coils.ts";

const seed = 20260205;
const log = (min: number, max: number) =>
  fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);
const original = (id: string): number => lanternSolved.figures.get(id)!.value;

/** Lantern with another tank, coupling, loss, timing and supply: figures and file moved together. */
const anyCoil = fc
  .record({
    coupling: fc.double({ min: 0.02, max: 0.6, noNaN: true }),
    tuning: fc.double({ min: 0.8, max: 1.1, noNaN: true }),
    q: log(20, 500),
    kind: fc.constantFrom("half" as const, "full" as const),
    rectifier: fc.constantFrom("bridge" as const, "doubler" as const),
    mains: log(12, 400),
    capacitance: log(5e-5, 1e-2),
    delay: log(1e-8, 1.5e-6),
    lead: fc.double({ min: 0, max: 1e-6, noNaN: true }),
    deadTime: fc.constantFrom(0, 1e-7, 6e-7),
    onTime: log(1e-5, 3e-4),
    rate: log(1, 2000),
    overcurrent: fc.constantFrom(undefined, 60, 400),
    breakoutVoltage: log(5e3, 4e5),
    reversed: fc.boolean(),
  })
  .map((drawn) => {
    const scale = 1 / drawn.tuning ** 2;
    const { overcurrent: _old, ...feedback } = lantern.feedback;
    const coil: Coil = {
      ...lantern,
      tank: { ...lantern.tank, bank: { ...lantern.tank.bank, each: lantern.tank.bank.each * scale } },
      bridge: { ...lantern.bridge, kind: drawn.kind, deadTime: drawn.deadTime },
      supply: {
        ...lantern.supply,
        mains: { voltage: drawn.mains, frequency: 50 },
        rectifier: drawn.rectifier,
        capacitors: { ...lantern.supply.capacitors, each: drawn.capacitance },
      },
      feedback: {
        ...feedback,
        delay: drawn.delay,
        lead: drawn.lead,
        ...(drawn.overcurrent === undefined ? {} : { overcurrent: drawn.overcurrent }),
      },
      interrupter: { onTime: drawn.onTime, rate: drawn.rate },
    };
    const solution = solvedWith({ "coupling.kMode1": drawn.coupling, "secondary.qUnloaded": drawn.q });
    const setting: BurstSetting = { breakoutVoltage: drawn.breakoutVoltage, senseReversed: drawn.reversed };
    return { coil, solution, setting };
  });

const parts = ["switches", "diodes", "bus", "primary", "tank", "secondary", "streamer"] as const;

/** What every study must be, whatever the coil. */
function expectSound(found: BurstStudy): void {
  for (const { id, value, low, high } of found.figures.values()) {
    expect(Number.isFinite(value), id).toBe(true);
    if (low !== undefined) expect(low <= value && value <= high!, id).toBe(true);
  }
  for (const values of [found.junction.time, found.junction.temperature]) {
    for (const value of values) expect(Number.isFinite(value)).toBe(true);
  }
  for (const [time, current] of found.envelope) expect(Number.isFinite(time) && Number.isFinite(current)).toBe(true);
}

describe("any coil", () => {
  it("closes its ledger, loses heat everywhere, and gives finite figures", () => {
    // law: conservation of energy; every loss is the integral of something that is never negative
    fc.assert(
      fc.property(anyCoil, ({ coil, solution, setting }) => {
        const found = study(coil, solution, setting);
        expectSound(found);
        const drawn = figureOf(found, "burst.energyDrawn");
        const net = drawn - figureOf(found, "burst.energyReturned");
        const losses = parts.map((part) => figureOf(found, `burst.energy.${part}`));
        for (const loss of losses) expect(loss).toBeGreaterThanOrEqual(0);
        const spent = losses.reduce((sum, loss) => sum + loss, 0) + figureOf(found, "burst.energy.stored");
        expect(Math.abs(spent - net)).toBeLessThanOrEqual(1e-3 * drawn + 1e-15);
        expect(figureOf(found, "switch.lossPerBurst")).toBeGreaterThan(0);
        expect(figureOf(found, "switch.junctionPeak")).toBeGreaterThanOrEqual(
          figureOf(found, "switch.junctionMean") - 1e-9,
        );
      }),
      { seed, numRuns: 60 },
    );
  });

  it("never has more in its top than the bus has given", () => {
    // law: ½·C·V² of mode 1 is part of the energy drawn and what was there before
    fc.assert(
      fc.property(anyCoil, ({ coil, solution, setting }) => {
        const found = study(coil, solution, { ...setting, rate: 1 });
        const capacitance = original("secondary.energyCapacitance");
        const inTop = 0.5 * capacitance * figureOf(found, "burst.peakTopVoltage") ** 2;
        expect(inTop).toBeLessThanOrEqual(figureOf(found, "burst.energyDrawn") * (1 + 1e-6));
      }),
      { seed, numRuns: 40 },
    );
  });

  it("comes to the same study each time", () => {
    // law: no memory but the field stage's
    fc.assert(
      fc.property(anyCoil, ({ coil, solution, setting }) => {
        expect(study(coil, solution, setting)).toEqual(study(coil, solution, setting));
      }),
      { seed, numRuns: 10 },
    );
  });
});

describe("a longer on-time", () => {
  it("never draws less from the bus", () => {
    // law: drawn energy is a sum of falls, and a longer burst begins like a shorter one
    const { overcurrent: _none, ...feedback } = lantern.feedback;
    let before = 0;
    for (let onTime = 10e-6; onTime < 200e-6; onTime += 10e-6) {
      const found = studyOf({ feedback }, { onTime, rate: 1, streamer: false, busVoltage: 300 });
      const drawn = figureOf(found, "burst.energyDrawn");
      expect(drawn).toBeGreaterThanOrEqual(before * (1 - 1e-9));
      before = drawn;
    }
  });
});

describe("closed forms", () => {
  const ideal: Partial<Coil> = {
    tank: {
      bank: { each: 150e-9, series: 3, parallel: 1 },
      leads: { inductance: lantern.tank.leads.inductance, resistance: 0 },
    },
    bridge: {
      ...lantern.bridge,
      switch: { ...lantern.bridge.switch, vce0: 0, rce: 1e-6, diode: { vf0: 0, rd: 1e-6 } },
      deadTime: 0,
    },
    supply: {
      ...lantern.supply,
      capacitors: { ...lantern.supply.capacitors, each: 1, esr: 0 },
    },
    feedback: { sense: "primaryCurrent", delay: 0, lead: 0 },
  };
  const lossless = { "primary.resistanceAc": 1e-9, "secondary.qUnloaded": 1e9 };

  it("a tank alone rings up by 4/π of its square wave", () => {
    // exact limit: peak of half-cycle n of a lossless loop that a square wave ±V drives in phase: (2n − 1)·V/Z; per time it is
    // the (4/π)·V·t/(2L) of the first harmonic
    const found = studyOf(
      ideal,
      { onTime: 60e-6, busVoltage: 300, streamer: false, rate: 1 },
      {
        ...lossless,
        "coupling.kMode1": 1e-6,
      },
    );
    const inductance = original("primary.inductance") + lantern.tank.leads.inductance;
    const impedance = Math.sqrt(inductance / 50e-9);
    found.envelope.slice(0, 12).forEach(([, current], n) => {
      expect(current / (((2 * n + 1) * 150) / impedance)).toBeCloseTo(1, 2);
    });
    const [time, current] = found.envelope.at(-1)!;
    expect(current / (((4 / Math.PI) * 150 * time) / (2 * inductance))).toBeCloseTo(1, 1);
  });

  it("all of a tank's energy raises the top by the root of C over C", () => {
    // exact limit: V ≤ √(2E/C_e) with E all that the bus has given; at equal tune, weak coupling and no loss a burst that stops when the
    // tank is empty comes near it
    const f1 = original("secondary.f1");
    const inductance = original("primary.inductance") + lantern.tank.leads.inductance;
    const each = 3 / ((2 * Math.PI * f1) ** 2 * inductance);
    const tuned = { ...ideal, tank: { ...ideal.tank!, bank: { each, series: 3, parallel: 1 } } };
    const ratios = Array.from({ length: 24 }, (_, n) => {
      const setting = { onTime: (n + 1) * 6e-6, busVoltage: 300, streamer: false, rate: 1 };
      const found = studyOf(tuned, setting, { ...lossless, "coupling.kMode1": 0.05 });
      const bound = Math.sqrt((2 * figureOf(found, "burst.energyDrawn")) / original("secondary.energyCapacitance"));
      return figureOf(found, "burst.peakTopVoltage") / bound;
    });
    for (const ratio of ratios) expect(ratio).toBeLessThan(1);
    expect(Math.max(...ratios)).toBeGreaterThan(0.99);
  });
});

describe("coils at the edge", () => {
  const cases: readonly (readonly [string, Partial<Coil>, BurstSetting, Record<string, number>])[] = [
    ["no delay at all", { feedback: { ...lantern.feedback, delay: 0, lead: 0 } }, {}, {}],
    ["a lead far beyond the delay", { feedback: { ...lantern.feedback, lead: 5e-6 } }, {}, {}],
    ["coupling near one", {}, {}, { "coupling.kMode1": 0.99 }],
    ["coupling of one", {}, {}, { "coupling.kMode1": 1.2 }],
    ["no coupling", {}, {}, { "coupling.kMode1": 0 }],
    ["a bus at nothing", {}, { busVoltage: 0 }, {}],
    ["a bus of a tenth of a volt", {}, { busVoltage: 0.1 }, {}],
    [
      "a burden that the comparator cannot see",
      { feedback: { ...lantern.feedback, transformer: { ratio: 1e5, burden: 0.01 } } },
      {},
      {},
    ],
    ["an on-time longer than the period", {}, { onTime: 2e-3, rate: 1000 }, {}],
    ["bursts without a pause", {}, { onTime: 110e-6, rate: 8000 }, {}],
    ["no on-time", {}, { onTime: 0 }, {}],
    ["no rate", {}, { rate: 0 }, {}],
    ["no losses", {}, {}, { "primary.resistanceAc": 0, "secondary.qUnloaded": 1e12 }],
    ["a top that breaks out at once", {}, { breakoutVoltage: 1 }, {}],
    ["settings that are no numbers", {}, { onTime: Number.NaN, rate: Number.POSITIVE_INFINITY, busVoltage: -5 }, {}],
    [
      "an oscillator that follows nothing",
      { feedback: { sense: { fixedFrequency: 190e3 }, delay: 0, lead: 0 } },
      {},
      {},
    ],
    ["secondary sensing", { feedback: { ...lantern.feedback, sense: "secondaryCurrent" } }, {}, {}],
    ["no gate resistor", { bridge: { ...lantern.bridge, gate: { drive: 15, resistor: 0, charge: 1e-7 } } }, {}, {}],
    [
      "a bus too small",
      { supply: { ...lantern.supply, capacitors: { ...lantern.supply.capacitors, each: 1e-7 } } },
      {},
      {},
    ],
    [
      "a doubler too small",
      { supply: { ...lantern.supply, rectifier: "doubler", capacitors: { ...lantern.supply.capacitors, each: 2e-6 } } },
      {},
      {},
    ],
    [
      "a mosfet without a knee",
      { bridge: { ...lantern.bridge, switch: { ...lantern.bridge.switch, kind: "mosfet", vce0: 0 } } },
      {},
      {},
    ],
  ];

  it.each(cases)("with %s give finite figures soon", (_what, changes, setting, figures) => {
    const began = performance.now();
    const found = studyOf(changes, { breakoutVoltage: pointVoltage, ...setting }, figures);
    expectSound(found);
    // A guard against a loop without end, not a measure of speed.
    expect(performance.now() - began).toBeLessThan(5000);
  });

  it("say why there is no burst", () => {
    expect(studyOf({}, { busVoltage: 0 }).remarks.join()).toContain("0 V");
    expect(studyOf({}, { onTime: 0 }).remarks.join()).toContain("on-time");
    expect(studyOf({}, {}, { "coupling.kMode1": 1.2 }).remarks.join()).toContain("coupling");
    const deaf = { ...lantern.feedback, transformer: { ratio: 1e5, burden: 0.01 } };
    const unheard = studyOf({ feedback: deaf });
    expect(unheard.remarks.join()).toContain("never commutates");
    expect(unheard.figures.has("burst.frequency")).toBe(false);
    expect(studyOf({}, { onTime: 2e-3, rate: 1000 }).remarks.join()).toContain("longer than the period");
  });

  const sections = ["primary", "tank", "bridge", "supply", "feedback", "interrupter"] as const;
  it.each(sections)("without %s say what is missing and keep the other figures", (section) => {
    const { [section]: _gone, ...coil } = lantern;
    const found = study(coil, lanternSolved);
    expectSound(found);
    expect(found.missing.map(({ path }) => path)).toContain(section);
    expect(found.figures.has("burst.energyDrawn")).toBe(false);
    if (section !== "supply") expect(found.figures.has("bus.storedEnergy")).toBe(true);
    if (section !== "bridge") expect(found.figures.has("gate.riseTime")).toBe(true);
    if (section !== "feedback") expect(found.figures.has("feedback.tripVoltage")).toBe(true);
  });

  it("without anything but a secondary say so and throw nothing", () => {
    const { site, secondary, topload } = lantern;
    const found = study({ coilwright: 1, name: "Bare", site, secondary, topload }, lanternSolved);
    expect(found.figures.size).toBe(0);
    expect(found.missing.map(({ path }) => path)).toEqual(
      expect.arrayContaining(["primary", "tank", "bridge", "supply", "feedback", "interrupter"]),
    );
  });
});
