/** Figures of the control supply and of the link from the interrupter. */

import type { GateChange } from "../burst/index.ts";
import { type Figure, figure } from "../catalogue/figure.ts";
import { controlHeadroom } from "../circuit/control-supply.ts";
import type { Supply } from "../description/coil.ts";
import type { Second } from "../units/si.ts";
import type { BurstContext } from "./burst-figures.ts";

export function controlFigures({ control, mains }: Supply): Figure[] {
  if (!control) return [];
  const { trough, load, headroom } = controlHeadroom({ control, frequency: mains.frequency });
  const from = ["supply.control", "supply.mains.frequency"];
  const source = "ideal-rectifier";
  const note =
    "mains 10 % low, full load; a small transformer that charges a reservoir loses up to a volt more than its regulation says";
  return [
    figure("control.load", load, { from: ["supply.control.rails"], source: "coil-file" }),
    figure("control.trough", trough, { from, source, low: Math.max(0, trough - 1), high: trough, note }),
    ...headroom.map((volts, n) =>
      figure(`control.rail.${n + 1}.headroom`, volts, {
        from: ["control.trough", `supply.control.rails.${n}`],
        source,
        low: volts - 1,
        high: volts,
        note,
      }),
    ),
  ];
}

/** How far the pulse on its way to the driver may change its width before the burst has a half-cycle more or less. */
export function linkFigures({ setting, train }: BurstContext): Figure[] {
  const { result } = train;
  const frequency = result.meanFrequency;
  if (frequency === undefined) return [];
  const halfCycle = 1 / (2 * frequency);
  const from = ["burst.frequency", "interrupter.onTime"];
  const half = figure("control.link.halfCycle", halfCycle, { from, source: "burst-simulation" });
  const off = result.gatesOffTime;
  // A trip ends the burst whatever the pulse.
  if (off === undefined || result.tripTime !== undefined || off < setting.onTime) return [half];
  const before = lastEdgeBefore(setting.onTime, result.gateChanges);
  const budget = Math.max(0, Math.min(off - setting.onTime, setting.onTime - before));
  return [
    half,
    figure("control.link.widthBudget", budget, {
      from,
      source: "burst-simulation",
      note: "optical links stretch or shorten a pulse by some ten to some hundred nanoseconds (common practice, no source)",
    }),
  ];
}

/** The last change of the comparator that reached the gates by then; the end of a dead time is none. */
function lastEdgeBefore(time: Second, changes: readonly GateChange[]): Second {
  let edge = 0;
  let waiting = false;
  for (const change of changes) {
    if (change.time > time) break;
    if (!waiting) edge = change.time;
    waiting = !change.upper && !change.lower;
  }
  return edge;
}
