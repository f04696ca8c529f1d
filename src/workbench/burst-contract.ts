/** What one burst of a coil gives back, beside `Solution`: figures, waveforms and the ledger over time, as plain data. */
import type { Figures } from "../catalogue/figure.ts";

/** Settings that a slider may move without a change of the file; absent ones are the coil's own. */
export interface BurstSetting {
  /** [s] */
  readonly onTime?: number;
  /** [Hz] */
  readonly rate?: number;
  /** Of the whole bus, before the burst [V]: low for a first bring-up. */
  readonly busVoltage?: number;
  /** Share of the stated mains, or of a `busVoltage` that is set: below 1 a transformer turned down. */
  readonly mains?: number;
  /** Whether a streamer loads the top once it breaks out. */
  readonly streamer?: boolean;
  /** Modes of the secondary in the circuit, 1 to 3. */
  readonly modes?: 1 | 2 | 3;
  /** Leads of the sense transformer the other way round. */
  readonly senseReversed?: boolean;
  /** At which the top breaks out [V peak], where a point, a rod or a scratch makes it less than the smooth top load's own. */
  readonly breakoutVoltage?: number;
}

/** Exact values at common times; all arrays of one length. */
export interface Waveforms {
  readonly time: Float64Array;
  readonly primaryCurrent: Float64Array;
  readonly bridgeVoltage: Float64Array;
  readonly tankVoltage: Float64Array;
  readonly topVoltage: Float64Array;
  readonly busVoltage: Float64Array;
  /** 1 where the upper (lower) side is driven, else 0; in a full bridge upper is the diagonal that drives positive current. */
  readonly gateUpper: Float64Array;
  readonly gateLower: Float64Array;
  /** Which branch carries the primary current: 0 none, 1 upper switch, 2 upper diode, 3 lower switch, 4 lower diode. */
  readonly conducting: Uint8Array;
  /** The ledger up to each time [J], by part: what the bus has given (net), lost in switches, diodes, bus, primary, secondary, streamer, and stored in tank, coils and top. */
  readonly energy: Readonly<Record<EnergyPart, Float64Array>>;
}

export type EnergyPart =
  | "drawn"
  | "returned"
  | "switches"
  | "diodes"
  | "bus"
  | "primary"
  | "tank"
  | "secondary"
  | "streamer"
  | "stored";

/** A change of the gates, with the current that was switched. */
export interface Commutation {
  readonly time: number;
  readonly current: number;
  /** What took over: the opposite diode softly, or a hard turn-on into a conducting diode. */
  readonly kind: "soft" | "hard" | "blocked";
}

/** Which pole of tank and secondary the feedback runs on, and why. */
export interface PoleLock {
  /** The pole nearer to the burst's frequency; `none` where the bridge does not commutate, a fixed frequency drives it, or it runs far from both. */
  readonly pole: "lower" | "upper" | "none";
  /** Frequency of the burst over that pole's; 1 where `none`. */
  readonly ratio: number;
  /** Part of the sensed current's ringing after the first edge that is at the lower pole, by amplitude; the rest is at the upper. */
  readonly kickAtLower: number;
}

export interface BurstStudy {
  /** As used. Without an interrupter, a supply or a top load in the file and nothing set, on-time, rate, bus or breakout are 0; `mains` is in the bus. */
  readonly setting: Required<Omit<BurstSetting, "mains">>;
  /** Every figure of sections Burst and Driver that this coil's file allows. */
  readonly figures: Figures;
  /** Where the file lacks a section, what is missing and so what could not be computed, in words. */
  readonly missing: readonly { readonly path: string; readonly says: string }[];
  /** How the simulation ended; anything but `endTime` is a finding. */
  readonly reached: "endTime" | "eventLimit" | "stepLimit" | "chatter" | "overflow";
  readonly remarks: readonly string[];
  /** Absolute peak of the primary current in each of its half-cycles: [time, current]. */
  readonly envelope: readonly (readonly [number, number])[];
  readonly commutations: readonly Commutation[];
  /** Absent where there is no burst to speak of. */
  readonly lock?: PoleLock;
  /** Bursts that were run until one was like the next, and whether it came to that. */
  readonly train?: { readonly bursts: number; readonly settled: boolean };
  readonly breakoutTime: number | undefined;
  readonly tripTime: number | undefined;
  /** Amplitude spectrum of the primary current over the burst: [Hz], [A]. Empty unless waveforms were asked for. */
  readonly spectrum: { readonly frequency: Float64Array; readonly amplitude: Float64Array };
  /** Junction temperature over one repetition in steady state: [s], [K]. Empty without a switch. */
  readonly junction: { readonly time: Float64Array; readonly temperature: Float64Array };
  /** Only where asked for: the sampled waveforms. */
  readonly waveforms: Waveforms | undefined;
}
