import { describe, expect, test } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import { modeOfResonance } from "../../src/circuit/mode-of-resonance.ts";
import { busOfSupply, networkOfCoil } from "../../src/circuit/network-of-coil.ts";
import type { Bridge, Feedback, Supply, Tank } from "../../src/description/coil.ts";
import { usualNetwork } from "../burst/networks.ts";

const supply: Supply = {
  mains: { voltage: 230, frequency: 50 },
  rectifier: "bridge",
  capacitors: { each: 1.5e-3, series: 2, parallel: 3, voltage: 250, esr: 0.06 },
};
const bridge: Bridge = {
  kind: "half",
  switch: {
    kind: "igbt",
    voltage: 650,
    current: 60,
    pulse: 240,
    vce0: 0.95,
    rce: 0.014,
    diode: { vf0: 0.9, rd: 0.012 },
    turnOff: { energy: 6e-4, atCurrent: 60, atVoltage: 400 },
    thermal: [],
    junctionMax: 423,
  },
  heatsink: { thermal: 0.9, ambient: 298 },
  gate: { drive: 15, resistor: 6.8, charge: 190e-9 },
};
const tank: Tank = {
  bank: { each: 150e-9, series: 2, parallel: 3, dissipation: 6e-4 },
  leads: { inductance: 0.4e-6, resistance: 6e-3 },
};
const feedback: Feedback = { sense: "primaryCurrent", delay: 4.2e-7, lead: 3.5e-7, overcurrent: 180 };
const mode = {
  frequency: 138e3,
  energyInductance: 0.0355,
  energyCapacitance: 3.4e-11,
  mutual: 9.5e-5,
  q: 180,
};

describe("modeOfResonance", () => {
  test("keeps the mode's frequency, energy, coupling and Q", () => {
    // law: f, ½·C·V² at 1 V at the top, M/√(L_p·L) and Q do not depend on the unit of current in the loop
    const loop = modeOfResonance(mode);
    expect(1 / (2 * Math.PI * Math.sqrt(loop.inductance * loop.capacitance)) / mode.frequency).toBeCloseTo(1, 12);
    expect(loop.capacitance).toBe(mode.energyCapacitance);
    expect(loop.mutual / Math.sqrt(loop.inductance)).toBeCloseTo(mode.mutual / Math.sqrt(mode.energyInductance), 12);
    expect((2 * Math.PI * mode.frequency * loop.inductance) / loop.resistance).toBeCloseTo(180, 9);
    // law: one ampere in the loop is the same energy as its share at the base
    expect(mode.energyInductance * loop.baseCurrentRatio! ** 2).toBeCloseTo(loop.inductance, 12);
  });

  test("with the other polarity turns mutual and base current over", () => {
    const [plus, minus] = [modeOfResonance(mode), modeOfResonance({ ...mode, polarity: -1 })];
    expect([minus.mutual, minus.baseCurrentRatio]).toEqual([-plus.mutual, -plus.baseCurrentRatio!]);
    expect(modeOfResonance({ ...mode, q: Number.POSITIVE_INFINITY }).resistance).toBe(0);
    expect(() => modeOfResonance({ ...mode, q: 0 })).toThrow("Q");
  });

  test("shows the base current in the waveforms and to the feedback", () => {
    // law: the waveform of the base current is the loop's times the ratio
    const network = usualNetwork();
    const pulse = { onTime: 5e-5, burstEnd: "immediate" as const, endTime: 6e-5 };
    const plain = simulateBurst(network, pulse).waveforms!.sample([4e-5]);
    const scaled = { ...network, modes: network.modes.map((loop) => ({ ...loop, baseCurrentRatio: 0.9 })) };
    const { secondaryCurrent, topVoltage } = simulateBurst(scaled, pulse).waveforms!.sample([4e-5]);
    expect(secondaryCurrent[0]! / plain.secondaryCurrent[0]!).toBeCloseTo(0.9, 12);
    expect(topVoltage[0]).toBe(plain.topVoltage[0]);
  });
});

describe("busOfSupply", () => {
  test("takes the bank as two halves with half its resistance each", () => {
    // law: two halves in series are the whole; by hand 1.5 mF·3/2 and 60 mΩ·2/3
    const bus = busOfSupply(supply);
    expect(bus.capacitorEach / 2).toBeCloseTo(2.25e-3, 12);
    expect(2 * bus.resistanceEach).toBeCloseTo(0.04, 12);
    expect(bus.voltage).toBeCloseTo(325.269, 3);
    expect(busOfSupply({ ...supply, rectifier: "doubler" }).voltage).toBeCloseTo(650.538, 3);
  });
});

describe("networkOfCoil", () => {
  const resonator = {
    primaryInductance: 9.2e-6,
    primaryResistance: 0.02,
    operatingFrequency: 130e3,
    modes: [modeOfResonance(mode)],
  };

  test("puts leads, coil and the capacitors' loss in series, and ends on over-current", () => {
    const network = networkOfCoil({ bridge, supply, tank, feedback, resonator, holdOff: 1e-3 });
    expect(network.primary.tankCapacitance).toBeCloseTo(225e-9, 15);
    expect(network.primary.inductance).toBeCloseTo(9.6e-6, 15);
    // law: tanδ = ω·C·R
    const loss = network.primary.resistance - 0.02 - 6e-3;
    expect(2 * Math.PI * 130e3 * 225e-9 * loss).toBeCloseTo(6e-4, 12);
    expect(network.overcurrent).toEqual({ limit: 180, action: "synchronous", holdOff: 1e-3 });
    expect(network.deadTime).toBe(0);
    expect(networkOfCoil({ bridge, supply, tank, feedback, resonator, busVoltage: 100 }).bus.voltage).toBe(100);
  });

  test("makes a network that runs", () => {
    const streamer = { breakoutVoltage: 1.5e5, resistance: 2e5, capacitance: 5e-12 };
    const network = networkOfCoil({ bridge, supply, tank, feedback, resonator, streamer });
    const burst = simulateBurst(network, { onTime: 1.1e-4, burstEnd: "synchronous", endTime: 2e-4 });
    expect(burst.reached).toBe("endTime");
    expect(burst.peakPrimaryCurrent).toBeGreaterThan(50);
    expect(Math.abs(burst.ledger.closure)).toBeLessThan(1e-12);
  });
});
