/** What stand-off gives back: figures, and everything behind them as plain data for pages, drawings and sheets. */
import type { Figures } from "../catalogue/figure.ts";
import type { SourceKey, Standing } from "../catalogue/sources.ts";
import type { Hazard } from "../description/hazards.ts";
import type {
  BodyEffect,
  DischargePulse,
  LineCandidate,
  ReferenceLevel,
  StoredComparison,
  Tissue,
} from "../safety/index.ts";
import type { Ampere, Coulomb, Farad, Hertz, Joule, Metre, Second, Volt } from "../units/si.ts";
import type { BurstStudy } from "./burst-contract.ts";

/** The bursts that stand-off is judged by; `judgedBursts` of the findings gives them. */
export interface StandoffBursts {
  /** At the setting. */
  readonly study: BurstStudy;
  /** At the interrupter's hard limits, where they let through more. */
  readonly atLimits?: BurstStudy;
  /** There, if the top never broke out. */
  readonly unlit?: BurstStudy;
  /** Others inside the limits, at the stated mains or below, that go beyond these. */
  readonly beyond?: readonly BurstStudy[];
}

/** What is to be played; without it the file's `show`, and then the interrupter's setting. */
export interface StandoffProgramme {
  /** Mean share of the time that the bridge drives. */
  readonly meanDuty: number;
  /** [s], of the sparks in one day. */
  readonly duration?: Second;
}

/** A value with its 90 % interval; the end that counts stands beside the figure that it belongs to. */
export interface Span {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Places of the coil that distances are measured from. */
export interface CoilPlace {
  /** Greatest radius at which high voltage can leave the coil [m]. */
  readonly radius: Metre;
  /** Highest point of it, and the middle of the top load [m] above the ground plane. */
  readonly top: Metre;
  readonly middle: Metre;
}

export interface StandoffLine {
  readonly candidates: readonly LineCandidate[];
  /** The one that asks for the most; absent where nothing could be computed. */
  readonly decides?: LineCandidate;
}

export interface FieldComparison extends ReferenceLevel {
  /** Field at the line for bystanders [V/m] or [A/m], rms inside the burst, or rms over time where the level is averaged. */
  readonly atLine: number;
  readonly over: boolean;
  /** From the axis: up to there the level is passed [m]. */
  readonly distance: Metre;
}

export interface StandoffFields {
  readonly frequency: Hertz;
  readonly comparisons: readonly FieldComparison[];
  /** Up to there the fields may be taken as they are computed [m]. */
  readonly validTo: Metre;
  /** Field far away beside a published emission limit; no legal advice. */
  readonly emission?: {
    readonly distance: Metre;
    /** [V/m] peak. */
    readonly field: number;
    readonly limit: number;
    readonly source: SourceKey;
  };
  /** Distance, electric field [V/m rms in the burst], magnetic field [A/m rms in the burst]. */
  readonly course: readonly { readonly distance: Metre; readonly electric: number; readonly magnetic: number }[];
}

export interface StandoffNoise {
  /** dB(A). */
  readonly levelAt1m: Span;
  readonly measured: boolean;
  readonly levelAtLine?: Span;
  /** [s] at the line: 85 dB(A) and 3 dB exchange, and for comparison 90 dB(A) and 5 dB. */
  readonly timeToFullDose?: Span;
  readonly timeToFullDoseByOsha?: Span;
  /** [s], where the file or the programme gives it. */
  readonly duration?: Second;
  /** Part of the daily dose that the duration fills at the line, upper end; 1 is full. */
  readonly dose?: number;
  /** dB that the peak of a click lies above the mean level. */
  readonly crest: number;
  readonly notes: readonly string[];
}

export interface Store {
  readonly path: string;
  readonly says: string;
  readonly capacitance: Farad;
  readonly voltage: Volt;
  /** Upper bounds. */
  readonly energy: Joule;
  readonly charge: Coulomb;
  readonly comparisons: readonly StoredComparison[];
  /** Until 60 V, at upper tolerances; `none` where nothing discharges it. */
  readonly waiting: Second | "none";
  /** With one bleeder open. */
  readonly waitingWithFailedBleeder: "none";
}

export interface StandoffStored {
  readonly stores: readonly Store[];
  /** In order, to be done before every touch. */
  readonly steps: readonly string[];
}

export interface TouchThreshold {
  readonly effect: BodyEffect;
  /** [A] rms, least and greatest; absent: no threshold is published there, and nothing is said. */
  readonly span?: readonly [number, number];
  /** Against the least of the span, by the upper end of the current. */
  readonly verdict: "over" | "under" | "no published threshold";
  readonly source: SourceKey;
}

export interface TouchBand {
  readonly id: "direct" | "line1" | "audible" | "carrier";
  readonly says: string;
  readonly frequency: Hertz;
  /** [A], mean for direct current, else rms. */
  readonly current: Span;
  /** By asymmetry of the arc, where it stands on that. */
  readonly byAsymmetry?: readonly { readonly asymmetry: number; readonly current: Ampere }[];
  readonly thresholds: readonly TouchThreshold[];
  /** √(1 + (f/723 Hz)²); absent for direct current and above 1 MHz. */
  readonly reactionWeight?: number;
  readonly contactLevels: readonly {
    readonly who: string;
    readonly level: Ampere;
    readonly over: boolean;
    readonly source: SourceKey;
  }[];
}

export interface StandoffTouch {
  /** Ways in which a touch kills that the carrier says nothing about; shown first. */
  readonly first: readonly string[];
  readonly pulse?: DischargePulse & {
    readonly capacitance: Farad;
    readonly voltage: Volt;
    /** Charges [C] that are felt and that hurt, from memory. */
    readonly felt: readonly [number, number];
    readonly painful: readonly [number, number];
    /** Charge [C] at which single pulses of this length fibrillated; absent below 1 µs. Context, never a margin. */
    readonly fibrillationCharge?: Coulomb;
  };
  readonly bands: readonly TouchBand[];
  /** Lines of the spectrum up to 1 kHz, peak [A], at the middle asymmetry. */
  readonly lines: readonly { readonly frequency: Hertz; readonly current: Ampere }[];
  readonly chargePerBurst?: Span;
  /** How much more a sine at the operating frequency takes to excite than a slow one. */
  readonly excitation?: { readonly nerve: number; readonly heart: number };
  readonly depths: readonly {
    readonly tissue: Tissue | "copper";
    readonly depth: Metre;
    readonly conductivity: number;
    readonly source: SourceKey;
  }[];
  /** Rod, cage, glove, slippers: current path and contact area. */
  readonly objects: readonly { readonly name: string; readonly says: string }[];
  /** Contact areas [m²] and the density of the carrier's current in them [A/m²]. */
  readonly contacts: readonly { readonly name: string; readonly area: number; readonly density: number }[];
  /** What this page is not. */
  readonly not: readonly string[];
}

export interface Caution {
  readonly id: string;
  readonly title: string;
  readonly says: readonly string[];
  readonly source: SourceKey;
}

export interface ChecklistItem {
  readonly id: string;
  readonly says: string;
  /** Who does it: each needs two people, one does, one reads and watches. */
  readonly by: "operator" | "second" | "both";
}

export interface ChecklistPart {
  readonly title: string;
  readonly items: readonly ChecklistItem[];
}

export interface HazardLine {
  readonly name: Hazard;
  readonly says: string;
  readonly acknowledged: boolean;
}

export interface Standoff {
  /** All ids `standoff.*` that this file allows, in the order of the catalogue. */
  readonly figures: Figures;
  /** Which burst the upper bounds are of, to go behind them. */
  readonly basis: string;
  readonly place: CoilPlace;
  /** What the file does not say, and so what is not known. */
  readonly missing: readonly { readonly path: string; readonly says: string }[];
  readonly line: StandoffLine;
  readonly fields?: StandoffFields;
  readonly noise?: StandoffNoise;
  readonly stored: StandoffStored;
  readonly touch: StandoffTouch;
  readonly cautions: readonly Caution[];
  readonly hazards: readonly HazardLine[];
  /** How far each source that is used here may be trusted. */
  readonly standing: Readonly<Record<string, Standing>>;
  /** The words that close every page and sheet. */
  readonly closing: string;
}
