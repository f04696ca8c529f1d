/** What the worker says of records, of a match and of a bring-up. Records themselves stay with the worker: they can be long. */
import type { Finding } from "../../catalogue/finding.ts";
import type { LoggedMatch } from "../../description/bench-log.ts";
import type { ChannelRole, Transducer } from "../../description/record.ts";
import type { CaptureSettings, Dialect } from "../../readers/capture.ts";
import type { Overlay } from "../../views/match-plot.ts";
import type { BringUp } from "../../workbench/bringup-contract.ts";
import type { CaptureFigure, RecordState } from "../../workbench/match-capture.ts";
import type { Match } from "../../workbench/match-contract.ts";

/** What a person says of a record; everything may be left to the reader. */
export interface Sayings {
  readonly settings: CaptureSettings;
  readonly state?: RecordState;
  /** [V] */
  readonly busVoltage?: number;
  /** By channel, from 0. */
  readonly channels: Readonly<Record<number, { readonly role?: ChannelRole; readonly transducer?: Transducer }>>;
}

export interface CaptureView {
  readonly id: number;
  readonly name: string;
  readonly says: Sayings;
  readonly dialect?: Dialect;
  /** `none`: the file is no record. */
  readonly kind: "time" | "sweep" | "none";
  readonly samples: number;
  /** [s] */
  readonly interval: number;
  readonly channels: readonly {
    readonly name: string;
    readonly role: ChannelRole;
    readonly unit: string;
    readonly transducer?: Transducer;
    /** Mean, and the greatest distance from it, in the channel's unit; in amperes where it shows a current with a scale. */
    readonly mean: number;
    readonly peak: number;
  }[];
  /** Peaks of a sweep, lower first [Hz]. */
  readonly tones: readonly number[];
  readonly figures: readonly CaptureFigure[];
  readonly findings: readonly Finding[];
}

export interface MatchAnswer {
  readonly text: string;
  /** Of the captures that took part, in their order. */
  readonly ids: readonly number[];
  readonly match?: Match;
  /** Why there is no match. */
  readonly refused?: string;
  readonly overlays: readonly (readonly Overlay[])[];
  readonly sweeps: readonly ({ readonly frequency: Float64Array; readonly amplitude: Float64Array } | undefined)[];
  /** For the log, but for its date. */
  readonly entry?: Omit<LoggedMatch, "at">;
}

/** The bring-up of a text, or why there is none. */
export interface BringUpAnswer {
  readonly text: string;
  readonly sheet?: BringUp;
  readonly refused?: string;
}

/** How far a reading or a match has come. */
export interface BenchProgress {
  readonly says: string;
  /** Part of the file, where it is known. */
  readonly share?: number;
}
