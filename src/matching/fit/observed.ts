/** What the records say of the coil, as the fit takes it: plain numbers with the error of each. */
import type { Ampere, Hertz, Ratio, Second, Volt } from "../../units/si.ts";

/** How the coil stood and was driven while a record was made. */
export const recordStates = {
  cold: "a low level, nothing near, the generator or a single pulse",
  near: "a lamp, a rod or a hand near the top that the drawing does not have",
  low: "driven from a low bus, before the top breaks out",
  full: "driven at the full bus, with streamers",
} as const;
export type RecordState = keyof typeof recordStates;

/** A value and its standard error from reading alone. */
export interface Reading {
  readonly value: number;
  readonly error: number;
}

/** A tone that rings without a drive, or a peak of a sweep. */
export interface Tone {
  readonly frequency: Reading;
  readonly q?: Reading;
}

/** Peak of one half-cycle of the primary current, from the start of the drive. */
export interface HalfCyclePeak {
  readonly current: Ampere;
  readonly error: Ampere;
  /** After the start of the drive [s]. */
  readonly time: Second;
}

/** The secondary's own frequency, at which the bridge sees no admittance, and both poles where no decay shows them, from the drive [Hz]. */
export interface DrivenLines {
  readonly lower?: Reading;
  readonly upper?: Reading;
  readonly secondary: Reading;
}

export interface Observed {
  readonly record: string;
  readonly state: RecordState;
  /** One or two, lower first. Two are the poles of tank and secondary together. */
  readonly tones: readonly Tone[];
  /** Where the record shows them and no streamer loaded the top. */
  readonly driven?: DrivenLines;
  readonly carrier?: Reading;
  /** The bridge was driven at the carrier, as by a generator, or so it looks. */
  readonly evenly?: true;
  /** It is taken for driven at this frequency, whatever its coil senses: then the carrier tells nothing of the coil. */
  readonly fixedFrequency?: Hertz;
  /** From the bridge's own steps, from the primary current, or from something that the envelope's notches make slip. */
  readonly carrierFrom: "bridge" | "current" | "loop";
  /** Whether the on-time is the gate's or the bridge's own: then the carrier is of the drive and nothing after it. */
  readonly driveKnown: boolean;
  /** Empty where no channel shows the primary current from the start of a burst. */
  readonly peaks: readonly HalfCyclePeak[];
  /** Part by which the scale of the current may be off; undefined where the channel has no scale at all. */
  readonly scaleError?: Ratio;
  /** Before the burst; measured in the record, said by a person, or else assumed to be the coil's own at full mains. */
  readonly bus?: {
    readonly voltage: Volt;
    readonly error: Volt;
    readonly assumed?: boolean;
    /** The record was not made at the bus that was assumed for it: only the shape of what it drives counts. */
    readonly unknown?: boolean;
  };
  readonly onTime?: Second;
}

/** Half-width of a 90 % interval as standard errors. */
const ninety = 1.645;

/** The standard error behind a 90 % interval. */
export function readingOf({ value, low, high }: { value: number; low: number; high: number }): Reading {
  return { value, error: Math.max((high - low) / (2 * ninety), Math.abs(value) * 1e-9) };
}
