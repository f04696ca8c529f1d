/** What `simulateBurst` gives back. */
import type { CircuitState } from "../circuit/state.ts";
import type { Ampere, Coulomb, Hertz, Joule, Second, Volt } from "../units/si.ts";
import type { GateChange } from "./driver.ts";
import type { Reached } from "./solve.ts";
import type { Waveforms } from "./waveforms.ts";

/** Where the energy went, from the start to the end of the simulation. */
export interface BurstLedger {
  /** ∫ (V_ce0·|i| + R_ce·i²), all switches in the path. */
  readonly switches: Joule;
  /** ∫ (V_f0·|i| + R_d·i²), all diodes in the path. */
  readonly diodes: Joule;
  readonly busEsr: Joule;
  readonly primary: Joule;
  /** Resistance of every mode. */
  readonly secondary: Joule;
  /** Resistance of the streamer. */
  readonly streamer: Joule;
  /** In tank, coils, modes and streamer, at the start and at the end. */
  readonly storedAtStart: Joule;
  readonly storedAtEnd: Joule;
  /** (net + storedAtStart − all others) as a share of what was drawn and what was there; 0 where nothing was. */
  readonly closure: number;
}

/** Something about a burst that its numbers alone do not say. */
export type BurstRemark =
  /** The gates were still driven when the simulation ended. */
  | "gatesStillDriven"
  /** The bridge never commutated: the feedback did not reach the comparator's threshold. */
  | "neverCommutated"
  /** The primary current reached the limit. */
  | "tripped"
  /** A trip in an earlier burst kept this one from being driven. */
  | "heldOff"
  /** A bus capacitor was drawn below nothing. */
  | "busReversed";

export interface BurstResult {
  /** How and when the simulation ended. All figures are of the time up to `at`, and finite whatever the reason. */
  readonly reached: Reached;
  readonly at: Second;
  readonly events: number;
  readonly steps: number;
  readonly remarks: readonly BurstRemark[];

  readonly peakPrimaryCurrent: Ampere;
  readonly peakPrimaryCurrentTime: Second;
  readonly peakTankVoltage: Volt;
  readonly peakTankVoltageTime: Second;
  readonly peakTopVoltage: Volt;
  readonly peakTopVoltageTime: Second;
  /** √(1/T·∫i²) over the simulated time, and the integrals themselves for other means: ∫i² in all, ∫|i| and ∫i² by device. */
  readonly rmsPrimaryCurrent: Ampere;
  readonly primaryCurrentSquare: number;
  readonly switchCharge: Coulomb;
  readonly switchCurrentSquare: number;
  readonly diodeCharge: Coulomb;
  readonly diodeCurrentSquare: number;

  /** Instants at which the side opposite to the last one went on, before the gates went off for good. */
  readonly commutations: readonly Second[];
  readonly halfCycles: number;
  /** (commutations − 1)/(2·(last − first)); absent with fewer than three. */
  readonly meanFrequency: Hertz | undefined;
  readonly gateChanges: readonly GateChange[];
  /** Greatest current that a switch carried at an instant at which it was put off, the end of the burst left out. */
  readonly largestSwitchedOffCurrent: Ampere;
  /** Greatest current that a switch took over from a diode of the other side at an instant at which it was put on. */
  readonly largestTakenOverCurrent: Ampere;
  /** The greater of the two. */
  readonly largestCommutationCurrent: Ampere;
  readonly gatesOffTime: Second | undefined;
  readonly currentAtGatesOff: Ampere | undefined;
  readonly tripTime: Second | undefined;

  /** Absolute peak of the primary current between successive changes of its sign, up to the gates' end. */
  readonly envelope: readonly { readonly time: Second; readonly current: Ampere }[];
  readonly firstEnvelopeMaximum: { readonly time: Second; readonly current: Ampere } | undefined;
  readonly notch: { readonly time: Second; readonly current: Ampere } | undefined;

  /** Sum of all falls, of all rises, and the difference, of the energy in the bus capacitors. */
  readonly energyDrawn: Joule;
  readonly energyReturned: Joule;
  readonly energyNet: Joule;
  readonly ledger: BurstLedger;
  readonly busVoltageAtEnd: Volt;
  readonly busSag: Volt;
  readonly tankVoltageAtEnd: Volt;

  readonly breakoutTime: Second | undefined;
  /** Last moment with |i| above 2 % of its peak. */
  readonly primaryQuietTime: Second | undefined;
  /** Free ring-down of the top after the primary has gone quiet; absent where fewer than six half-cycles of it were seen. */
  readonly ringdownDecayTime: Second | undefined;
  readonly ringdownFrequency: Hertz | undefined;

  readonly finalState: CircuitState;
  /** Every waveform at any time; absent where it was not asked for. */
  readonly waveforms: Waveforms | undefined;
}
