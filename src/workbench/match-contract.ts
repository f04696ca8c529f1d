/** What a match gives back: fitted figures beside the drawn ones, what the records cannot say, and what may explain the difference. */

import type { Figures } from "../catalogue/figure.ts";
import type { Edit, Finding } from "../catalogue/finding.ts";
import type { RecordState } from "../matching/fit/observed.ts";
import type { BurstInput } from "./match-point.ts";

/** A figure, drawn and fitted. */
export interface MatchedFigure {
  /** Of the fitted figure, e.g. `match.tank.frequency`. */
  readonly id: string;
  /** Of its drawn twin, e.g. `tank.frequency`. */
  readonly twin: string;
  readonly drawn: number;
  readonly value: number;
  /** Ends of the 90 % interval. */
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** (fitted − drawn) over the standard deviation that tolerances and model leave to the drawn value. */
  readonly shift: number;
  /** Standard deviation after the fit over the one before: 1 where the records say nothing. */
  readonly left: number;
}

/** A number of the coil file, or of the model, drawn and fitted. */
export interface MatchedParameter {
  readonly id: string;
  readonly says: string;
  /** Empty where the coil file has no number for it. */
  readonly paths: readonly string[];
  readonly drawn: number;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly shift: number;
  readonly left: number;
}

/** What the records leave open. */
export interface Undetermined {
  readonly id: string;
  readonly says: string;
  /** Of the doubt in the drawing, what is left; 0.8 or more. */
  readonly left: number;
  /** The parameter that would do the same to these records, where there is one. */
  readonly tradesWith?: string;
  /** In a sentence, with what would tell. */
  readonly because: string;
}

/** One cause alone, fitted. */
export interface Explanation {
  readonly id: ExplanationId;
  /** In words, with its size: `tank capacitor 8.1 % low`. */
  readonly says: string;
  /** Size in the unit of what it moves; 0 or 1 for causes that are or are not. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  /** χ² of the records and all priors, with this cause and without any. */
  readonly chiSquare: number;
  readonly chiSquareDrawn: number;
  /** 2·ln of how much more probable the records are with this cause than with the drawing as it is, its own freedom paid for. */
  readonly support: number;
  /** What to look at or to turn. */
  readonly check: string;
}

/** Two causes that the records do not part. */
export interface Rivals {
  readonly between: readonly [ExplanationId, ExplanationId];
  /** Each in words, the more supported one first. */
  readonly says: readonly [string, string];
  /** What would part them, in words; absent where no single measurement does. */
  readonly measure?: string;
  /** The figure that it measures, and what it is by the one and by the other, in the figure's unit. */
  readonly figure?: { readonly id: string; readonly values: readonly [number, number] };
}

export type ExplanationId =
  | "tank-capacitor"
  | "tap-half-turn"
  | "primary-turn"
  | "secondary-turns"
  | "top-load-height"
  | "sense-reversed"
  | "shorted-turn"
  | "lossy-capacitor"
  | "coupling-height"
  | "person-near"
  | "bus-doubled"
  | "bus-halved"
  | "tank-leads"
  | "strike-ring-closed"
  | "lossy-secondary"
  | "feedback-timing";

/** One thing that the records show, and what the fitted model gives for it. */
export interface Residual {
  readonly record: string;
  readonly says: string;
  readonly measured: number;
  readonly drawn: number;
  readonly fitted: number;
  readonly unit: string;
  /** (fitted − measured) over the error that was allowed it. */
  readonly sigmas: number;
}

export interface Match {
  readonly figures: Figures;
  readonly matched: readonly MatchedFigure[];
  readonly parameters: readonly MatchedParameter[];
  readonly undetermined: readonly Undetermined[];
  /** Most supported first. */
  readonly explanations: readonly Explanation[];
  /** The causes that follow the first too closely to be told from it by these records; empty where it leads. */
  readonly rivals: readonly Rivals[];
  /** The cause that the fit was made with; undefined where the drawing's tolerances explain the records, or no cause stands out. */
  readonly taken: ExplanationId | undefined;
  readonly residuals: readonly Residual[];
  readonly chiSquare: number;
  /** Of things that the records show. */
  readonly observations: number;
  /** What writes the fitted values into the coil file. Empty where the records determine nothing that the file has. */
  readonly adopt: readonly Edit[];
  /** Of each record: the circuit that its burst is computed with, as drawn and as fitted. Empty where nothing could be compared. */
  readonly bursts: readonly { readonly drawn: BurstInput; readonly fitted: BurstInput }[];
  readonly states: readonly { readonly record: string; readonly state: RecordState }[];
  /** What the records lack. */
  readonly findings: readonly Finding[];
}
