/** Circuits at and beyond the edge of what can be built: the solver ends, says how, and gives finite figures. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BurstOptions, simulateBurst } from "../../src/burst/burst.ts";
import type { BurstResult } from "../../src/burst/result.ts";
import { type BurstNetwork, mutualOfCoupling } from "../../src/circuit/network.ts";
import { stateAtRest } from "../../src/circuit/state.ts";
import { usualNetwork } from "./networks.ts";

const seed = 20260104;
const usual = usualNetwork();
const pulse: BurstOptions = { onTime: 1e-4, burstEnd: "immediate", endTime: 2e-4 };
const guarded: BurstOptions = { ...pulse, limits: { steps: 20_000, events: 20_000 } };

type Mutation = readonly [name: string, mutate: (value: number) => BurstNetwork];

/** Every number anywhere in the figures is finite. */
function expectFinite(value: unknown, path = "result"): void {
  if (typeof value === "number") expect(Number.isFinite(value), path).toBe(true);
  else if (Array.isArray(value)) for (const [n, item] of value.entries()) expectFinite(item, `${path}.${n}`);
  else if (typeof value === "object" && value !== null && Object.getPrototypeOf(value) === Object.prototype)
    for (const [key, item] of Object.entries(value)) expectFinite(item, `${path}.${key}`);
}

function expectSound(burst: BurstResult): void {
  expectFinite(burst);
  expect(burst.at).toBeGreaterThanOrEqual(0);
  expect(Math.abs(burst.ledger.closure)).toBeLessThan(1e-6);
}

function withCoupling(coupling: number): BurstNetwork {
  const mode = usual.modes[0]!;
  const mutual = mutualOfCoupling({
    coupling,
    primaryInductance: usual.primary.inductance,
    modeInductance: mode.inductance,
  });
  return { ...usual, modes: [{ ...mode, mutual }] };
}

const at = (feedback: Partial<BurstNetwork["feedback"]>): BurstNetwork => ({
  ...usual,
  feedback: { ...usual.feedback, ...feedback },
});

describe("a burst at the edge", () => {
  test.each<[string, BurstNetwork, Partial<BurstOptions>]>([
    ["no delay", at({ delay: 0 }), {}],
    ["no delay, no lead, no hysteresis, no dead time", { ...at({ delay: 0, lead: 0, threshold: 0 }), deadTime: 0 }, {}],
    ["a lead longer than the delay", at({ lead: 2e-6, delay: 1e-7 }), {}],
    ["a delay longer than a half-cycle", at({ delay: 6e-6 }), {}],
    ["a dead time longer than a half-cycle", { ...usual, deadTime: 8e-6 }, {}],
    ["coupling of 0.999", withCoupling(0.999), {}],
    ["no coupling", withCoupling(0), {}],
    ["a dead bus", { ...usual, bus: { ...usual.bus, voltage: 0 } }, {}],
    ["a bus of a nanofarad", { ...usual, bus: { ...usual.bus, capacitorEach: 1e-9 } }, {}],
    [
      "no resistance at all",
      {
        ...usual,
        bus: { ...usual.bus, resistanceEach: 0 },
        switch: { vce0: 0, rce: 0, diode: { vf0: 0, rd: 0 } },
        primary: { ...usual.primary, resistance: 0 },
        modes: usual.modes.map((mode) => ({ ...mode, resistance: 0 })),
      },
      {},
    ],
    ["no secondary", { ...usual, modes: [] }, {}],
    ["a primary of 10 kΩ", { ...usual, primary: { ...usual.primary, resistance: 1e4 } }, {}],
    ["a window that never ends", usual, { onTime: Number.POSITIVE_INFINITY }],
    ["a window of no length", usual, { onTime: 0 }],
    ["a synchronous end that waits for a change", at({ threshold: 1e9 }), { burstEnd: "synchronous" }],
    [
      "a streamer from the start",
      { ...usual, streamer: { breakoutVoltage: 0, resistance: 1e5, capacitance: 3e-12 } },
      {},
    ],
    ["a megavolt bus", { ...usual, bus: { ...usual.bus, voltage: 1e6 } }, {}],
    ["a bus of 10⁵⁰ V", { ...usual, bus: { ...usual.bus, voltage: 1e50 } }, {}],
  ])("with %s ends where it should", (_, network, options) => {
    const burst = simulateBurst(network, { ...pulse, ...options });
    expect(burst.reached).toBe("endTime");
    expect(burst.at).toBe(pulse.endTime);
    expectSound(burst);
  });

  test("says that the feedback never reached the threshold, and that the gates are still driven", () => {
    const burst = simulateBurst(at({ threshold: 1e9 }), { ...pulse, burstEnd: "synchronous" });
    expect(burst.remarks).toEqual(["neverCommutated", "gatesStillDriven"]);
    expect(burst.gatesOffTime).toBeUndefined();
    expect(burst.currentAtGatesOff).toBeUndefined();
    expect(burst.meanFrequency).toBeUndefined();
    expect(burst.halfCycles).toBe(1);
  });

  test("gives nothing at all from a dead bus", () => {
    const burst = simulateBurst({ ...usual, bus: { ...usual.bus, voltage: 0 } }, pulse);
    expect(burst.peakPrimaryCurrent).toBe(0);
    expect(burst.energyDrawn).toBe(0);
    expect(burst.ledger.closure).toBe(0);
    expect(burst.waveforms!.sample([0, 1e-4]).topVoltage).toEqual(Float64Array.of(0, 0));
  });

  test("with comparator and bridge that switch each other at one instant stops there and says so", () => {
    // With the sense reversed, no delay and a long lead, each change of the bridge throws s over the other threshold.
    const network = { ...at({ delay: 0, lead: 1e-5, reversed: true, threshold: 0.1 }), deadTime: 0 };
    const burst = simulateBurst(network, pulse);
    expect(burst.reached).toBe("chatter");
    expect(burst.at).toBeLessThan(pulse.endTime);
    expectSound(burst);
    expect(burst.waveforms!.sample([burst.at]).primaryCurrent[0]).toBeCloseTo(burst.finalState.primaryCurrent, 9);
  });

  test("with a part a million times faster than the rest stops at its guard and says so", () => {
    const network = { ...usual, streamer: { breakoutVoltage: 1e3, resistance: 1e-3, capacitance: 1e-12 } };
    const burst = simulateBurst(network, guarded);
    expect(burst.reached).toBe("stepLimit");
    expect(burst.at).toBeGreaterThan(burst.breakoutTime!);
    expect(burst.at).toBeLessThan(pulse.endTime);
    expectSound(burst);
  });

  test("beyond every limit is refused with a reason", () => {
    expect(() => simulateBurst(withCoupling(1), pulse)).toThrow("coupling below 1");
    expect(() => simulateBurst(withCoupling(-1.2), pulse)).toThrow("coupling below 1");
    expect(() => simulateBurst(at({ delay: -1e-9 }), pulse)).toThrow("feedback.delay");
    expect(() => simulateBurst(at({ threshold: Number.NaN }), pulse)).toThrow("feedback.threshold");
    expect(() => simulateBurst({ ...usual, primary: { ...usual.primary, inductance: 0 } }, pulse)).toThrow(
      "primary.inductance",
    );
    expect(() => simulateBurst({ ...usual, bus: { ...usual.bus, voltage: 1e90 } }, pulse)).toThrow("bus.voltage");
    expect(() => simulateBurst({ ...usual, bus: { ...usual.bus, voltage: -1 } }, pulse)).toThrow("bus.voltage");
    expect(() => simulateBurst(usual, { ...pulse, endTime: 0 })).toThrow("end time");
    expect(() => simulateBurst(usual, { ...pulse, endTime: Number.POSITIVE_INFINITY })).toThrow("end time");
    expect(() => simulateBurst(usual, { ...pulse, onTime: Number.NaN })).toThrow("on-time");
    expect(() => simulateBurst(usual, { ...pulse, initial: { ...stateAtRest(usual), modes: [] } })).toThrow(
      "initial state",
    );
    expect(() => simulateBurst(usual, { ...pulse, limits: { stepAngle: 0 } })).toThrow("longest step");
    expect(() => simulateBurst(usual, pulse).waveforms!.sample([1])).toThrow("times must lie within");
  });

  test("of any mutation ends within its guards, finite", () => {
    // law: whatever the numbers, the simulation ends and no figure is infinite or not a number
    const wild = fc.oneof(
      fc.constantFrom(1e-30, 1e-12, 1e-9, 1e-6, 1e-3, 1, 1e3, 1e6, 1e12, 1e30),
      fc.double({ min: 1e-15, max: 1e6, noNaN: true }),
    );
    const wildOrZero = fc.oneof(fc.constant(0), wild);
    const mutations = fc.constantFrom<Mutation>(
      ["bus.voltage", (value) => ({ ...usual, bus: { ...usual.bus, voltage: value } })],
      ["bus.resistanceEach", (value) => ({ ...usual, bus: { ...usual.bus, resistanceEach: value } })],
      ["vce0", (value) => ({ ...usual, switch: { ...usual.switch, vce0: value } })],
      ["rce", (value) => ({ ...usual, switch: { ...usual.switch, rce: value } })],
      ["vf0", (value) => ({ ...usual, switch: { ...usual.switch, diode: { ...usual.switch.diode, vf0: value } } })],
      ["deadTime", (value) => ({ ...usual, deadTime: value })],
      ["primary.resistance", (value) => ({ ...usual, primary: { ...usual.primary, resistance: value } })],
      ["threshold", (value) => at({ threshold: value })],
      ["lead", (value) => at({ lead: value })],
      ["delay", (value) => at({ delay: value })],
      ["reversed lead", (value) => at({ lead: value, reversed: true })],
      ["secondary sense", (value) => at({ threshold: value, sense: "secondaryCurrent" })],
      [
        "mode resistance",
        (value) => ({ ...usual, modes: usual.modes.map((mode) => ({ ...mode, resistance: value })) }),
      ],
    );
    const positiveOnly = fc.constantFrom<Mutation>(
      ["capacitorEach", (value) => ({ ...usual, bus: { ...usual.bus, capacitorEach: value } })],
      ["tankCapacitance", (value) => ({ ...usual, primary: { ...usual.primary, tankCapacitance: value } })],
      ["inductance", (value) => ({ ...usual, modes: [], primary: { ...usual.primary, inductance: value } })],
      [
        "mode capacitance",
        (value) => ({ ...usual, modes: usual.modes.map((mode) => ({ ...mode, capacitance: value })) }),
      ],
      ["fixed frequency", (value) => at({ sense: { fixedFrequency: value } })],
      [
        "streamer resistance",
        (value) => ({ ...usual, streamer: { breakoutVoltage: 1e4, resistance: value, capacitance: 4e-12 } }),
      ],
      [
        "streamer capacitance",
        (value) => ({ ...usual, streamer: { breakoutVoltage: 1e4, resistance: 1e5, capacitance: value } }),
      ],
      ["overcurrent", (value) => ({ ...usual, overcurrent: { limit: value, action: "synchronous" } })],
    );
    const ends = fc.constantFrom("immediate" as const, "synchronous" as const);
    const check = ([, mutate]: Mutation, value: number, burstEnd: "immediate" | "synchronous"): void => {
      const burst = simulateBurst(mutate(value), { ...guarded, burstEnd, limits: { steps: 5000, events: 5000 } });
      expectFinite(burst);
      if (burst.reached === "endTime") expect(burst.at).toBe(pulse.endTime);
      else expect(burst.at).toBeLessThanOrEqual(pulse.endTime);
    };
    fc.assert(fc.property(mutations, wildOrZero, ends, check), { seed, numRuns: 100 });
    fc.assert(fc.property(positiveOnly, wild, ends, check), { seed, numRuns: 100 });
  });
});
