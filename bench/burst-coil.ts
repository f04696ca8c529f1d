/** The coil that the bursts of the bench run on: one mode, half bridge, 120 µs. Values as in the open case 1. */
import { type BurstNetwork, mutualOfCoupling } from "../src/circuit/network.ts";

const primaryInductance = 16e-6;
const modeInductance = 0.06;

export const coilOfBench: BurstNetwork = {
  bridge: "half",
  bus: { voltage: 340, capacitorEach: 470e-6, resistanceEach: 0.03 },
  switch: { vce0: 0.95, rce: 0.014, diode: { vf0: 0.9, rd: 0.012 } },
  deadTime: 0,
  primary: { inductance: primaryInductance, resistance: 0.06, tankCapacitance: 150e-9 },
  modes: [
    {
      inductance: modeInductance,
      capacitance: 42e-12,
      resistance: 160,
      mutual: mutualOfCoupling({ coupling: 0.14, primaryInductance, modeInductance }),
    },
  ],
  feedback: { sense: "primaryCurrent", threshold: 1, lead: 0, delay: 250e-9 },
};

export const burstPulse = { onTime: 120e-6, burstEnd: "immediate", endTime: 120e-6, waveforms: false } as const;
