/** Figures of the control supply and of the link from the interrupter. */
import { type Figure, figure } from "../catalogue/figure.ts";
import { controlHeadroom } from "../circuit/control-supply.ts";
import type { Supply } from "../description/coil.ts";
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
  const before = result.commutations.at(-1) ?? 0;
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
