/** What a person does to the resonance from near and from far. */
import type { Coil } from "../description/coil.ts";
import { coilGeometry } from "../geometry/coil-geometry.ts";
import { pointOn, type Stretch } from "../geometry/stretch.ts";
import { solve } from "./solve.ts";

export interface ApproachPoint {
  /** From the axis [m]. */
  readonly distance: number;
  /** Of f1 against nobody in the room [Hz]; negative. */
  readonly shift: number;
}

export interface Approach {
  readonly alone: number;
  /** Nearest first. */
  readonly points: readonly ApproachPoint[];
  /** The widest place of the top load, or of the winding where there is none [m]. */
  readonly top: { readonly radius: number; readonly height: number };
}

/** From the widest part of the coil to the axis of whoever stands nearest [m]. */
const armLength = 0.4;
/** The person of the coil file's defaults, in shoes. */
const person = { height: 1.75, radius: 0.15, foot: 0.02 };

/**
 * Solves the coil with one person of 1.75 m at several distances, everybody else left out.
 *
 * Pure; some tens of milliseconds for each distance.
 *
 * @throws OutOfDomain, RangeError  as `solve`
 */
export function approach(coil: Coil): Approach {
  const { winding, topload, round } = coilGeometry(coil);
  const top = widest([winding.stretch, ...(topload?.stretches ?? [])]);
  const drawn = widest(round.filter(({ role }) => role !== "room").flatMap(({ stretches }) => stretches));
  const nearest = Math.max(top.radius, drawn.radius) + armLength;
  const at = (people: Coil["site"]["people"]) =>
    solve({ ...coil, site: { ...coil.site, people } }, { brief: true }).figures.get("secondary.f1")?.value ??
    Number.NaN;
  const alone = at([]);
  const points = [1, 1.25, 1.6, 2.1, 2.8, 3.8].map((factor) => {
    const distance = nearest * factor;
    return { distance, shift: at([{ at: distance, ...person }]) - alone };
  });
  return { alone, points, top };
}

function widest(stretches: readonly Stretch[]): { radius: number; height: number } {
  const points = stretches.flatMap(({ piece }) => [0, 0.25, 0.5, 0.75, 1].map((share) => pointOn(piece, share)));
  return points.reduce((most, { r, z }) => (r > most.radius ? { radius: r, height: z } : most), {
    radius: 0,
    height: 0,
  });
}
