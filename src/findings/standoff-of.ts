/** Stand-off for rules: computed once for each study, from the bursts that they are judged by. */

import type { FloorPlace } from "../description/coil.ts";
import type { Metre } from "../units/si.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import { standoff } from "../workbench/standoff.ts";
import type { Standoff } from "../workbench/standoff-contract.ts";
import type { Context } from "./rule.ts";

const known = new WeakMap<BurstStudy, { readonly coil: Context["coil"]; readonly found: Standoff }>();

/** Undefined where no burst was studied. */
export function standoffOf({ coil, solution, study, atLimits, unlit, beyond }: Context): Standoff | undefined {
  if (solution === undefined || study === undefined) return undefined;
  const before = known.get(study);
  if (before?.coil === coil) return before.found;
  const found = standoff({
    coil,
    solution,
    bursts: { study, ...(atLimits ? { atLimits } : {}), ...(unlit ? { unlit } : {}), beyond },
  });
  known.set(study, { coil, found });
  return found;
}

/** Between two places on the floor [m]. */
export function apart(one: FloorPlace, other: FloorPlace): Metre {
  const across = one.at * Math.cos(one.bearing) - other.at * Math.cos(other.bearing);
  const along = one.at * Math.sin(one.bearing) - other.at * Math.sin(other.bearing);
  return Math.hypot(across, along);
}
