/** What one run of the house gives back: the one object that the CLI, the app, the findings and the views share. */
import type { Figures } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";

export type { CoilFile } from "../description/coil-file.ts";

/** Profile of the winding in one mode, base first. Voltages per volt at the top, currents per ampere at the base. */
export interface ModeProfile {
  readonly frequency: number;
  /** [m] above the ground plane. */
  readonly height: Float64Array;
  readonly voltage: Float64Array;
  readonly current: Float64Array;
  /** Axial field along the winding [1/m], per volt at the top, at the same heights. */
  readonly field: Float64Array;
}

/** A point of greatest surface field, per volt at the top [1/m]. */
export interface PeakField {
  readonly part: string;
  readonly radius: number;
  readonly height: number;
  readonly fieldPerVolt: number;
  /** Local smaller radius of curvature [m], for inception. */
  readonly curvatureRadius: number;
}

/** What one surrounding does to f1 [Hz], all else in place. `path` is its key in the coil file. */
export interface Detuning {
  readonly path: string;
  readonly says: string;
  readonly shift: number;
}

/** Poles against tap or capacitor, for the linked plots. Arrays of equal length. */
export interface PoleTrack {
  readonly against: "tap" | "capacitance";
  readonly at: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly ratio: Float64Array;
}

/** Potential and field on a grid of the half-plane, per volt at the top. Row-major, rows by height from the bottom. NaN never; inside conductors the conductor's potential and zero field. */
export interface FieldMap {
  readonly radius: Float64Array;
  readonly height: Float64Array;
  readonly potential: Float64Array;
  readonly field: Float64Array;
}

export interface Solution {
  readonly coil: Coil;
  readonly figures: Figures;
  readonly modes: readonly ModeProfile[];
  readonly peaks: readonly PeakField[];
  readonly detunings: readonly Detuning[];
  readonly tracks: readonly PoleTrack[];
}
