/** A burst made by hand: round numbers, so that every page and picture of it can be checked by reading. */
import { type Figure, figure } from "../../src/catalogue/index.ts";
import type { BurstStudy, EnergyPart, Waveforms } from "../../src/workbench/burst-contract.ts";

const cycles = 6;
const frequency = 100e3;
const samples = 240;
const driven = 40e-6;

const times = Float64Array.from({ length: samples + 1 }, (_, n) => (n * cycles) / frequency / samples);
const along = (of: (time: number) => number) => times.map(of);
const swing = (time: number) => Math.sin(2 * Math.PI * frequency * time);
/** Rings up to 100 A while it is driven, and dies away in 10 µs after it. */
const size = (time: number) => (time < driven - 1e-9 ? time / driven : Math.exp((driven - time) / 10e-6));

const energy = (share: number) => along((time) => share * 0.1 * Math.min(1, time / driven));
const nothing = along(() => 0);

const waveforms: Waveforms = {
  time: times,
  primaryCurrent: along((time) => 100 * size(time) * swing(time)),
  bridgeVoltage: along((time) => (time < driven - 1e-9 ? 160 * Math.sign(swing(time + 1e-9)) : 0)),
  tankVoltage: along((time) => -2000 * size(time) * Math.cos(2 * Math.PI * frequency * time)),
  topVoltage: along((time) => 60e3 * size(time) * Math.cos(2 * Math.PI * frequency * time)),
  busVoltage: along((time) => 320 - 2 * Math.min(1, time / driven)),
  gateUpper: along((time) => (time < driven - 1e-9 && swing(time + 1e-9) > 0 ? 1 : 0)),
  gateLower: along((time) => (time < driven - 1e-9 && swing(time + 1e-9) <= 0 ? 1 : 0)),
  conducting: Uint8Array.from(times, (time) => {
    const up = swing(time + 1e-9) > 0;
    return time < driven - 1e-9 ? (up ? 1 : 3) : up ? 4 : 2;
  }),
  energy: {
    drawn: energy(1.2),
    returned: energy(0.2),
    switches: energy(0.05),
    diodes: nothing,
    bus: energy(0.03),
    primary: energy(0.02),
    tank: energy(0.01),
    secondary: energy(0.09),
    streamer: energy(0.6),
    stored: energy(0.2),
  } satisfies Record<EnergyPart, Float64Array>,
};

const values: Readonly<Record<string, number>> = {
  "burst.frequency": frequency,
  "burst.peakPrimaryCurrent": 100,
  "burst.peakTankVoltage": 2000,
  "burst.peakTopVoltage": 60e3,
  "burst.driveTime": driven,
  "burst.halfCycles": 8,
  "burst.energyDrawn": 0.12,
  "burst.energyReturned": 0.02,
  // Thirds: rounded one by one they would not add up.
  "burst.energy.switches": 0.1 / 3,
  "burst.energy.diodes": 0,
  "burst.energy.bus": 0,
  "burst.energy.primary": 0.1 / 3,
  "burst.energy.tank": 0,
  "burst.energy.secondary": 0,
  "burst.energy.streamer": 0.1 / 3,
  "burst.energy.stored": 0,
  "bank.slope": 1.2e9,
  "switch.takenOverCurrent": 12,
  "switch.commutationCurrent": 0,
  "bus.voltage": 320,
  "bus.ripple": 8,
  "bus.sagPerBurst": 2,
  "bus.peakVoltage": 358,
  "mains.power": 50,
  "mains.currentRms": 0.4,
  "mains.inrushPeak": 34,
  "feedback.timeError": 80e-9,
  "gate.transformer.magnetisingCurrent": 0.08,
  "control.rail.1.headroom": 2.5,
  "control.rail.2.headroom": 11,
};
const intervals: Readonly<Record<string, readonly [number, number, number]>> = {
  "burst.streamerLength": [0.2, 0.1, 0.5],
  "switch.junctionPeak": [60, 55, 72],
  "bus.storedEnergy": [64, 64, 77],
  "bus.dischargeTime": [84, 84, 106],
};

const figures: readonly Figure[] = [
  ...Object.entries(values).map(([id, value]) => figure(id, value, { from: [], source: "burst-simulation" })),
  ...Object.entries(intervals).map(([id, [value, low, high]]) =>
    figure(id, value, { from: [], source: "burst-simulation", low, high }),
  ),
];

export const handMadeBurst: BurstStudy = {
  setting: {
    onTime: driven,
    rate: 150,
    busVoltage: 325,
    streamer: true,
    modes: 1,
    senseReversed: false,
    breakoutVoltage: 40e3,
  },
  figures: new Map(figures.map((each) => [each.id, each])),
  missing: [],
  reached: "endTime",
  remarks: [],
  envelope: Array.from({ length: 8 }, (_, n) => [(n + 0.5) * 5e-6, ((n + 0.5) * 100) / 8] as const),
  commutations: [],
  lock: { pole: "lower", ratio: 1, kickAtLower: 0.7 },
  train: { bursts: 3, settled: true },
  breakoutTime: 27e-6,
  tripTime: undefined,
  spectrum: { frequency: new Float64Array(0), amplitude: new Float64Array(0) },
  junction: { time: new Float64Array(0), temperature: new Float64Array(0) },
  waveforms,
};

/** The same with some figures away. */
export const handMadeWithout = (...ids: readonly string[]): BurstStudy => ({
  ...handMadeBurst,
  figures: new Map([...handMadeBurst.figures].filter(([id]) => !ids.includes(id))),
});
