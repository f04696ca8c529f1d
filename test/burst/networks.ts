/** Small networks for tests, and random ones. Values are invented. */
import fc from "fast-check";
import { type BurstNetwork, mutualOfCoupling, type SecondaryMode } from "../../src/circuit/network.ts";

/** A half bridge on a stiff bus with ideal switches: what stands between the drive and the load is nothing. */
export function idealNetwork(parts: Partial<BurstNetwork>): BurstNetwork {
  return {
    bridge: "half",
    bus: { voltage: 300, capacitorEach: 1e12, resistanceEach: 0 },
    switch: { vce0: 0, rce: 0, diode: { vf0: 0, rd: 0 } },
    deadTime: 0,
    primary: { inductance: 1e-5, resistance: 0.1, tankCapacitance: 1e-7 },
    modes: [],
    feedback: { sense: "primaryCurrent", threshold: 0, lead: 0, delay: 0 },
    ...parts,
  };
}

/** The usual kind of coil, one mode, equal tune. */
export function usualNetwork(parts: Partial<BurstNetwork> = {}): BurstNetwork {
  const primary = { inductance: 1.2e-5, resistance: 0.05, tankCapacitance: 1.1e-7 };
  return {
    bridge: "half",
    bus: { voltage: 325, capacitorEach: 1.5e-3, resistanceEach: 0.04 },
    switch: { vce0: 0.95, rce: 0.014, diode: { vf0: 0.9, rd: 0.012 } },
    deadTime: 2e-7,
    primary,
    modes: [modeOf({ primary, inductance: 0.035, frequency: 139e3, q: 180, coupling: 0.15 })],
    feedback: { sense: "primaryCurrent", threshold: 1, lead: 3e-7, delay: 4e-7 },
    ...parts,
  };
}

export function modeOf({
  primary,
  inductance,
  frequency,
  q,
  coupling,
}: {
  primary: { readonly inductance: number };
  inductance: number;
  frequency: number;
  q: number;
  coupling: number;
}): SecondaryMode {
  const omega = 2 * Math.PI * frequency;
  return {
    inductance,
    capacitance: 1 / (omega * omega * inductance),
    resistance: (omega * inductance) / q,
    mutual: mutualOfCoupling({ coupling, primaryInductance: primary.inductance, modeInductance: inductance }),
  };
}

const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(min), max: Math.log(max), noNaN: true }).map(Math.exp);

/** Coils within what can be built, one to three modes, with and without streamer, every drive. */
export const anyNetwork: fc.Arbitrary<BurstNetwork> = fc
  .record({
    bridge: fc.constantFrom("half" as const, "full" as const),
    voltage: between(20, 700),
    capacitorEach: between(2e-5, 5e-3),
    resistanceEach: fc.constantFrom(0, 0.01, 0.2),
    drops: fc.constantFrom(
      { vce0: 0, rce: 0, diode: { vf0: 0, rd: 0 } },
      { vce0: 1.1, rce: 0.02, diode: { vf0: 0.9, rd: 0.015 } },
      { vce0: 0, rce: 0.08, diode: { vf0: 0.8, rd: 0.01 } },
    ),
    deadTime: fc.constantFrom(0, 1e-7, 5e-7),
    inductance: between(3e-6, 1e-4),
    resistance: fc.constantFrom(0, 0.03, 0.3),
    frequency: between(4e4, 4e5),
    tuning: between(0.85, 1.1),
    modes: fc.array(
      fc.record({
        inductance: between(5e-3, 0.3),
        above: between(1, 4),
        q: between(20, 400),
        coupling: fc.tuple(between(0.03, 0.3), fc.constantFrom(1, -1)).map(([size, sign]) => size * sign),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    sense: fc.constantFrom(
      "primaryCurrent" as const,
      "primaryCurrent" as const,
      "secondaryCurrent" as const,
      "oscillator" as const,
    ),
    lead: fc.constantFrom(0, 3e-7),
    delay: fc.constantFrom(1e-7, 4e-7),
    streamer: fc.option(
      fc.record({ breakout: between(1e3, 1e5), resistance: between(3e4, 1e6), capacitance: between(1e-12, 1e-11) }),
      {
        nil: undefined,
      },
    ),
  })
  .map((c) => {
    const omega = 2 * Math.PI * c.frequency * c.tuning;
    const primary = {
      inductance: c.inductance,
      resistance: c.resistance,
      tankCapacitance: 1 / (omega * omega * c.inductance),
    };
    return {
      bridge: c.bridge,
      bus: { voltage: c.voltage, capacitorEach: c.capacitorEach, resistanceEach: c.resistanceEach },
      switch: c.drops,
      deadTime: c.deadTime,
      primary,
      modes: c.modes.map(({ inductance, above, q, coupling }, m) =>
        modeOf({ primary, inductance, frequency: c.frequency * (m === 0 ? 1 : above), q, coupling }),
      ),
      feedback: {
        sense: c.sense === "oscillator" ? { fixedFrequency: c.frequency } : c.sense,
        threshold: c.sense === "secondaryCurrent" ? 0.02 : 1,
        lead: c.lead,
        delay: c.delay,
      },
      ...(c.streamer
        ? {
            streamer: {
              breakoutVoltage: c.streamer.breakout,
              resistance: c.streamer.resistance,
              capacitance: c.streamer.capacitance,
            },
          }
        : {}),
    };
  });

/** Square roots of the energy that one unit of each state stands for, in the order of a state vector. */
export function energyScale(network: BurstNetwork): number[] {
  const bus = network.bus.capacitorEach;
  return [
    network.primary.inductance,
    network.primary.tankCapacitance,
    bus,
    bus,
    network.streamer?.capacitance ?? 1,
    ...network.modes.flatMap(({ inductance, capacitance }) => [inductance, capacitance]),
  ].map(Math.sqrt);
}
