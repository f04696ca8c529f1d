/** The three open cases of `test/reference/burst-open-cases.json` as networks and pulses. */
import { readFileSync } from "node:fs";
import type { BurstOptions } from "../../src/burst/burst.ts";
import { type BurstNetwork, mutualOfCoupling } from "../../src/circuit/network.ts";

export interface OpenCase {
  readonly parameters: {
    readonly id: string;
    readonly bridge: "half" | "full";
    readonly busVoltage: number;
    readonly busCapacitorEach: number;
    readonly busEsrEach: number;
    readonly vce0: number;
    readonly rce: number;
    readonly vf0: number;
    readonly rd: number;
    readonly tankCapacitance: number;
    readonly primaryInductance: number;
    readonly primaryResistance: number;
    readonly coupling: number;
    readonly secondaryInductance: number;
    readonly secondaryCapacitance: number;
    readonly secondaryResistance: number;
    readonly comparatorThreshold: number;
    readonly leadTime: number;
    readonly gateDelay: number;
    readonly deadTime: number;
    readonly onTime: number;
    readonly burstEnd: "immediate" | "synchronous";
    readonly endTime: number;
    readonly spark: {
      readonly breakoutVoltage: number;
      readonly resistance: number;
      readonly capacitance: number;
    } | null;
  };
  readonly results: {
    readonly peakPrimaryCurrent: number;
    readonly peakPrimaryCurrentTime: number;
    readonly peakTankVoltage: number;
    readonly peakTopVoltage: number;
    readonly peakTopVoltageTime: number;
    readonly commutations: number;
    readonly halfCycles: number;
    readonly firstCommutations: readonly number[];
    readonly lastCommutation: number;
    readonly gatesOffTime: number;
    readonly currentAtGatesOff: number;
    readonly meanFrequency: number;
    readonly firstEnvelopeMaximum: { readonly time: number; readonly current: number };
    readonly notch: { readonly time: number; readonly current: number } | null;
    readonly envelope: readonly (readonly [number, number])[];
    readonly samples: readonly (readonly [number, number, number, number])[];
    readonly energyNetFromBusCapacitors: number;
    readonly energyDrawn: number;
    readonly energyReturned: number;
    readonly breakoutTime?: number;
    readonly ledger: Readonly<Record<string, number>>;
    readonly busVoltageAtEnd: number;
    readonly busSag: number;
    readonly tankVoltageAtEnd: number;
    readonly primaryQuietTime: number;
    readonly ringdownDecayTime: number;
    readonly ringdownFrequency: number;
  };
  readonly numericalError: Readonly<Record<string, number>>;
}

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");

export const openCases = (
  JSON.parse(read("../reference/burst-open-cases.json")) as { readonly cases: readonly OpenCase[] }
).cases;

export const openNetlist = (id: string): string => read(`../reference/burst-netlists/${id}.cir`);

export function networkOf({ parameters: p }: OpenCase): BurstNetwork {
  return {
    bridge: p.bridge,
    bus: { voltage: p.busVoltage, capacitorEach: p.busCapacitorEach, resistanceEach: p.busEsrEach },
    switch: { vce0: p.vce0, rce: p.rce, diode: { vf0: p.vf0, rd: p.rd } },
    deadTime: p.deadTime,
    primary: {
      inductance: p.primaryInductance,
      resistance: p.primaryResistance,
      tankCapacitance: p.tankCapacitance,
    },
    modes: [
      {
        inductance: p.secondaryInductance,
        capacitance: p.secondaryCapacitance,
        resistance: p.secondaryResistance,
        mutual: mutualOfCoupling({
          coupling: p.coupling,
          primaryInductance: p.primaryInductance,
          modeInductance: p.secondaryInductance,
        }),
      },
    ],
    feedback: {
      sense: "primaryCurrent",
      threshold: p.comparatorThreshold,
      lead: p.leadTime,
      delay: p.gateDelay,
    },
    ...(p.spark ? { streamer: p.spark } : {}),
  };
}

export function pulseOf({ parameters }: OpenCase): BurstOptions {
  const { onTime, burstEnd, endTime } = parameters;
  return { onTime, burstEnd, endTime };
}
