/** What the room asks the worker for, and what it gets back. */
import type { Figures } from "../../catalogue/figure.ts";
import type { Finding } from "../../catalogue/finding.ts";
import type { ProgrammeHistory, ProgrammeStudy } from "../../workbench/programme-contract.ts";
import type { Fate, GateError, GateSettings, Reason } from "../../workbench/programme-outputs.ts";

/** Where a song comes from. */
export type SongSource =
  | { readonly kind: "tune"; readonly name: string; readonly text: string }
  | { readonly kind: "file"; readonly name: string; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly kind: "glide"; readonly from: number; readonly to: number; readonly lasts: number };

/** Order of the codes in `ShownPulses.fate`. */
export const fates: readonly Fate[] = ["sent", "trimmed", "merged", "dropped"];

/** One entry per note, as played. */
export interface ShownNotes {
  readonly start: Float64Array<ArrayBuffer>;
  readonly end: Float64Array<ArrayBuffer>;
  readonly pitch: Float32Array<ArrayBuffer>;
  readonly velocity: Float32Array<ArrayBuffer>;
  readonly voice: Uint16Array<ArrayBuffer>;
  /** 1 for noise. */
  readonly noise: Uint8Array<ArrayBuffer>;
  /** Octaves by which its pulses had to be lowered. */
  readonly lowered: Uint8Array<ArrayBuffer>;
}

/** One entry per pulse that was wanted, in order of start. */
export interface ShownPulses {
  readonly start: Float64Array<ArrayBuffer>;
  readonly onTime: Float32Array<ArrayBuffer>;
  readonly wantedOnTime: Float32Array<ArrayBuffer>;
  /** Index into `fates`. */
  readonly fate: Uint8Array<ArrayBuffer>;
  /** Index into `ShownProgramme.because`. */
  readonly reason: Uint8Array<ArrayBuffer>;
  readonly voice: Uint16Array<ArrayBuffer>;
}

/** What the page shows of a planned song. */
export interface ShownProgramme
  extends Pick<
    ProgrammeStudy,
    "limits" | "limitsAssumed" | "voices" | "reasons" | "fit" | "missing" | "highest" | "litFrom"
  > {
  readonly title: string;
  readonly duration: number;
  readonly notes: ShownNotes;
  readonly pulses: ShownPulses;
  readonly history: ProgrammeHistory;
  readonly figures: Figures;
  readonly findings: readonly Finding[];
  /** Every reason there is, with its words. */
  readonly because: readonly { readonly reason: Reason; readonly says: string }[];
}

export interface ProgrammeAnswer {
  /** Of the coil file. */
  readonly text: string;
  /** Of the song: placed in its text, or at a byte of its file. */
  readonly songFindings: readonly Finding[];
  readonly shown?: ShownProgramme;
  readonly failed?: string;
}

/** A part of the programme, to be heard [s, Hz]; `volume` is the peak of its longest pulse, 0 to 1. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly rate: number;
  readonly volume: number;
}

export interface KeySound {
  readonly samples: Float32Array<ArrayBuffer>;
  readonly lowered: number;
}

export interface WrittenFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** What a song can be handed over as. */
export type OutputKind = "preview" | "gate" | "csv" | "json" | "midi" | "notation" | "firmware" | "follower";

export interface OutputSetting {
  readonly gateRate: GateSettings["rate"];
  readonly gatePulse: NonNullable<GateSettings["pulse"]>;
  /** Of the controller's output: whether the transmitter is dark while it is high. */
  readonly idlesHigh: boolean;
}

export interface Written {
  /** One file, or several of a program. */
  readonly files: readonly WrittenFile[];
  readonly error?: GateError;
  /** Why there is none. */
  readonly refused?: string;
}
