/** The only place that knows the order: a coil in, all of its figures out. */
import type { Figure, Figures } from "../catalogue/figure.ts";
import { quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import type { Solution } from "./contract.ts";
import { detuningFigures, detuningsOf } from "./detunings.ts";
import { fieldStage } from "./field-stage.ts";
import { modeProfile } from "./mode-profiles.ts";
import { secondaryFigures } from "./secondary-figures.ts";
import { primaryFigures, tankFigures } from "./tank-figures.ts";
import { poleTracks, tuningFigures } from "./tuning.ts";

export interface SolveOptions {
  /** Leaves out what each surrounding does and how the poles move: half of the work, for solving many neighbours of one coil. */
  readonly brief?: boolean;
}

/** `solve`, as it is handed to whoever solves again. */
export type Solve = (coil: Coil, options?: SolveOptions) => Solution;

/**
 * Solves a coil: fields, modes, coupling, poles, tuning.
 *
 * Pure but for its memory: the field stage is kept by what it depends on, so an edit that leaves shape and room alone does not solve it again.
 *
 * @param coil  as the reader gives it: checked, SI
 * @throws OutOfDomain, RangeError  the coil's conductors cross or a formula is left; the reader and the rules refuse such coils first
 */
export function solve(coil: Coil, { brief = false }: SolveOptions = {}): Solution {
  const stage = fieldStage(coil);
  const { primary, tank } = coil;
  const figures = [
    ...secondaryFigures(coil, stage),
    ...(primary ? primaryFigures(primary, stage) : []),
    ...(primary && tank
      ? [...tankFigures({ coil, primary, tank, stage }), ...tuningFigures({ coil, primary, tank, stage })]
      : []),
    ...(brief ? [] : detuningFigures(coil, stage)),
  ];
  return {
    coil,
    figures: inOrder(figures),
    modes: stage.modes.slice(0, 3).map((mode) => modeProfile(mode, stage.geometry)),
    peaks: stage.peaks,
    detunings: brief ? [] : detuningsOf(coil, stage),
    tracks: primary && tank && !brief ? poleTracks({ primary, tank, stage }) : [],
  };
}

/** In the order of the catalogue, whatever order they were made in. */
function inOrder(figures: readonly Figure[]): Figures {
  const made = new Map(figures.map((each) => [each.id, each]));
  const ordered = new Map<string, Figure>();
  for (const id of quantities.keys()) {
    const found = made.get(id);
    if (found) ordered.set(id, found);
  }
  return ordered;
}
