/** What planning a song for a coil gives back, as plain data: schedule, figures, histories, and what it stands on. */
import type { Figures } from "../catalogue/figure.ts";
import type { Song } from "../description/song.ts";
import type { Plan, ProgrammeLimits, Reason, Shaping } from "../programme/index.ts";
import type { Hertz, Ratio, Second, Volt } from "../units/si.ts";

/** What a player may set; the coil's own or the house's where absent. */
export interface ProgrammeOptions {
  /** Of the loudest note [s]; the interrupter's own setting where absent, and never above its limit. */
  readonly onTime?: Second;
  /** By voice: the higher one is kept where two cannot both be; tones are at 1 and noise at 0 where absent. */
  readonly priorities?: readonly (number | undefined)[];
  /** Indices of voices that are not to sound. */
  readonly muted?: readonly number[];
  /** Semitones by which every tone is moved. */
  readonly transpose?: number;
  /** Budget of a moved pulse, as a change of its period [cent]. */
  readonly shift?: number;
  /** Of the noise. */
  readonly seed?: number;
  readonly equalLoudness?: boolean;
  /** Makes it fit: octaves, fewer notes at a time, shorter pulses. */
  readonly fit?: boolean;
  /** As in `BurstSetting`. */
  readonly streamer?: boolean;
  readonly breakoutVoltage?: number;
}

/** Worst values in each of some hundred stretches of the song; arrays of one length. Empty where the file lacks what they need. */
export interface ProgrammeHistory {
  /** Where each stretch begins [s]. */
  readonly time: Float64Array;
  readonly stretch: Second;
  /** Greatest, of the windows of 20 ms and of 1 s that end in it. */
  readonly duty: Float64Array;
  readonly dutySecond: Float64Array;
  /** Starts in 1 s [Hz]; energy from the bus in 1 s [W]. */
  readonly rate: Float64Array;
  readonly power: Float64Array;
  /** Greatest [K]. */
  readonly junction: Float64Array;
  readonly capacitor: Float64Array;
  /** Least [V]. */
  readonly bus: Float64Array;
  /** Pulses wanted, sent whole, shortened and left out in it. */
  readonly wanted: Float64Array;
  readonly sent: Float64Array;
  readonly trimmed: Float64Array;
  readonly dropped: Float64Array;
}

export interface VoiceTally {
  readonly name: string;
  readonly notes: number;
  /** Notes of which nothing is sent. */
  readonly silent: number;
  readonly wanted: number;
  readonly sent: number;
  readonly trimmed: number;
  readonly merged: number;
  readonly dropped: number;
}

/** How many pulses each reason shortened and left out. */
export type ReasonTally = Readonly<Record<Reason, { readonly trimmed: number; readonly dropped: number }>>;

/** What the plan of a song says when nothing has been done to make it fit. */
export interface BeforeFit {
  readonly figures: Figures;
  readonly reasons: ReasonTally;
}

export interface FitStep {
  readonly kind: "transpose" | "fold" | "thin" | "soften" | "nothing";
  /** One sentence without a full stop. */
  readonly says: string;
}

export interface ProgrammeStudy {
  /** As played: transposed, and changed by the fit. */
  readonly song: Song;
  readonly plan: Plan;
  readonly figures: Figures;
  readonly limits: ProgrammeLimits | undefined;
  /** True where the file has no interrupter.limits, and its setting stands for them. */
  readonly limitsAssumed: boolean;
  readonly shaping: Shaping | undefined;
  readonly history: ProgrammeHistory;
  readonly voices: readonly VoiceTally[];
  readonly reasons: ReasonTally;
  /** By note [cent]; NaN with fewer than two pulses and for noise. */
  readonly cents: Float64Array;
  /** Of the burst's energies in the table that the plan uses, against the solver between its points. Absent where no burst can be computed. */
  readonly energyError?: Ratio;
  /** Shortest on-time that breaks out at the full bus; absent where none does, or where no burst can be computed. */
  readonly litFrom?: Second;
  /** Before a pulse, with nothing drawn; absent without a supply. */
  readonly busVoltage?: Volt;
  /** Of the fastest train that the limits let through. */
  readonly highest?: Hertz;
  readonly fit?: { readonly steps: readonly FitStep[]; readonly before: BeforeFit };
  /** Where the file lacks something, what is missing and so what was not looked at, in words. */
  readonly missing: readonly { readonly path: string; readonly says: string }[];
}
