/** A record from an oscilloscope or a sound card as plain immutable data: evenly sampled channels in SI units. */
import type { Ohm, Second } from "../units/si.ts";

/** What a channel was connected to. */
export const channelRoles = {
  pickupLoop: "a wire loop or a short antenna some way off the coil",
  primaryCurrent: "a current transformer on the primary, or a current probe",
  bus: "the bus voltage",
  bridgeOutput: "the output of the bridge",
  gate: "the interrupter, or the enable of the driver: high for the on-time",
  audio: "a microphone",
  unknown: "not said",
} as const;
export type ChannelRole = keyof typeof channelRoles;

/** A current transformer: its secondary current flows through the burden, and the channel shows the voltage there. */
export interface Transducer {
  /** Primary current per secondary current, > 0. */
  readonly ratio: number;
  readonly burden: Ohm;
}

export interface Channel {
  /** As the file calls it, or `channel 1` and so on where it has no name. */
  readonly name: string;
  readonly role: ChannelRole;
  /** SI unit of the samples (`V`, `A`, …); `1` where the file does not say. */
  readonly unit: string;
  /**
   * [`BenchRecord.length`]. NaN where the record has no number, ±Infinity where the instrument said that it was over its range.
   * Single precision: 6e-8 of a value, a hundredth of the step of a converter of 16 bits.
   */
  readonly samples: Float32Array;
  readonly transducer?: Transducer;
}

export interface BenchRecord {
  readonly name: string;
  /** Time of the first sample, from the trigger where the file says so. */
  readonly start: Second;
  /** Between samples, > 0. */
  readonly interval: Second;
  /** Samples of each channel. */
  readonly length: number;
  /** At least one. */
  readonly channels: readonly Channel[];
  /** Its file says `madeUpMark`: nothing of it is taken over as measured. */
  readonly madeUp?: true;
}

/** What stands in the header of a record that no instrument made. */
export const madeUpMark = "made up for practice, no measurement";

/** What one unit of the channel's samples is in amperes; undefined where the channel shows no current. */
export function amperesPerUnit({ unit, transducer }: Pick<Channel, "unit" | "transducer">): number | undefined {
  if (unit === "A") return 1;
  return transducer !== undefined && (unit === "V" || unit === "1") ? transducer.ratio / transducer.burden : undefined;
}
