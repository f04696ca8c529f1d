/** What was done on the bench with a coil, and when: plain data, one entry after another. */

/** A figure with its 90 % interval, SI. */
export interface LoggedFigure {
  readonly id: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
}

interface Dated {
  /** Moment, as `2026-11-25T16:20:00Z`. */
  readonly at: string;
}

/** Records read, and what the fit to them says. */
export interface LoggedMatch extends Dated {
  readonly kind: "match";
  readonly records: readonly {
    readonly name: string;
    readonly state?: string;
    /** [V] */
    readonly bus?: number;
    readonly figures: readonly LoggedFigure[];
  }[];
  /** In one sentence. */
  readonly says: string;
  readonly fitted: readonly (LoggedFigure & { readonly drawn: number; readonly shift: number })[];
  readonly chiSquare: number;
  readonly observations: number;
}

/** Fitted values written into the coil file, or taken out of it again. */
export interface LoggedAdoption extends Dated {
  readonly kind: "adopted" | "withdrawn";
  readonly edits: readonly { readonly path: string; readonly value: string }[];
}

/** A reading of the bring-up. */
export interface LoggedReading extends Dated {
  readonly kind: "reading";
  /** Ids of stage and step, and what the step asks for. */
  readonly stage: string;
  readonly step: string;
  readonly says: string;
  readonly unit: string;
  readonly value: number;
  readonly expected: number;
  readonly low: number;
  readonly high: number;
  /** Name of the record that it was read from; typed in where absent. */
  readonly record?: string;
}

export type LogEntry = LoggedMatch | LoggedAdoption | LoggedReading;
