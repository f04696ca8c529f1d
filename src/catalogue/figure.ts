/** A figure is never a bare number: id, value, unit, interval, what it came from and the source of the formula travel together. */

/** A handbook formula computed beside the solution. */
export interface CrossCheck {
  /** Name of the formula, e.g. `Nagaoka current sheet`. */
  readonly name: string;
  readonly value: number;
  /** Where the formula may be trusted, in words. */
  readonly validity: string;
  /** True where this coil is inside that range. */
  readonly valid: boolean;
  readonly source: string;
}

export interface Figure {
  readonly id: string;
  /** In the SI unit that the catalogue gives for the id. Always finite. */
  readonly value: number;
  readonly unit: string;
  /** The 90 % interval where it was computed. */
  readonly low?: number;
  readonly high?: number;
  /** Ids of figures and dotted paths of the coil file that it was computed from. */
  readonly from: readonly string[];
  /** Key into `sources`. */
  readonly source: string;
  readonly crossChecks: readonly CrossCheck[];
  /** A caveat that belongs beside the number. */
  readonly note?: string;
}

/** All figures of one solve, by id, in the order of the catalogue. */
export type Figures = ReadonlyMap<string, Figure>;
