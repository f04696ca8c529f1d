/** Charges and turns of a coil at the peak of a burst, for the fields around it. */
import type { Coil } from "../description/coil.ts";
import { rings } from "../parts/index.ts";
import type { Charge, Turns } from "../safety/index.ts";
import type { Ampere, Volt } from "../units/si.ts";
import type { Solution } from "./contract.ts";

/** Pieces that the winding is gathered into: enough from a winding's radius away. */
const groups = 40;

/**
 * Charges of winding and top load at a top voltage, from the current of mode 1: what flows in at the base and not out at the top stays between.
 *
 * @param topVoltage [V peak]
 * @param height     [m], of the top load's middle
 * @returns          [C peak]; what the earthed primary holds against them is left out, which makes the field higher
 * @throws nothing; empty where the mode was not solved
 * @source distributed-resonator
 */
export function chargesOf(
  { modes, figures }: Solution,
  { topVoltage, height }: { topVoltage: Volt; height: number },
): readonly Charge[] {
  const [mode] = modes;
  const capacitance = figures.get("secondary.terminalCapacitance")?.value;
  if (mode === undefined || capacitance === undefined) return [];
  const all = capacitance * topVoltage;
  const last = mode.current.length - 1;
  const edge = (group: number) => Math.round((group * last) / groups);
  const along = Array.from({ length: groups }, (_, group): Charge => {
    const [from, to] = [edge(group), edge(group + 1)];
    return {
      charge: all * (mode.current[from]! - mode.current[to]!),
      height: Math.max(0, (mode.height[from]! + mode.height[to]!) / 2),
    };
  });
  return [...along, { charge: all * mode.current[last]!, height }];
}

/** Turns of the primary in circuit with its peak current. */
export const primaryTurnsOf = ({ primary }: Coil, current: Ampere): readonly Turns[] =>
  primary === undefined
    ? []
    : rings(primary).map(({ radius, height, share }) => ({ radius, height, turns: share, current }));

/** Turns of the secondary, gathered between the points of the mode, with the peak current at its base. */
export function secondaryTurnsOf({ secondary }: Coil, { modes }: Solution, baseCurrent: Ampere): readonly Turns[] {
  const [mode] = modes;
  if (mode === undefined) return [];
  const radius = secondary.former.outerDiameter / 2 + secondary.wire.overall / 2;
  const last = mode.height.length - 1;
  const at = (values: Float64Array, group: number) => values[Math.round(((group + 0.5) * last) / groups)]!;
  return Array.from(
    { length: groups },
    (_, group): Turns => ({
      radius,
      height: at(mode.height, group),
      turns: secondary.turns / groups,
      current: baseCurrent * at(mode.current, group),
    }),
  );
}
