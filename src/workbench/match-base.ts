/** Where a match begins: the coil as solved, and the heights of the current weighed by what it should show. */
import type { Coil } from "../description/coil.ts";
import type { Observed } from "../matching/fit/observed.ts";
import { fullSetting } from "./burst-setting.ts";
import type { Solution } from "./contract.ts";
import { breakoutTimeOf, burstSeen, networkToMove } from "./match-burst.ts";
import { beforeItScatters, heldComparator, runsOnPole } from "./match-held.ts";
import { burstInputOf, loopsOf, pointOf } from "./match-point.ts";
import { type Base, polesWithoutLoss } from "./match-predict.ts";

/** The coil of a solution, with each record's own bus. */
export function baseOf(solution: Solution, observed: readonly Observed[]): Base {
  const { coil } = solution;
  const network = networkToMove(solution, observed.some((each) => heldComparator(coil, each)) ? 3 : 1);
  // The carrier hardly depends on the bus: where that is not known, the full one stands in, and no height is compared.
  const full = fullSetting(coil, solution, {}).busVoltage;
  const buses = observed.map(({ bus }) => bus?.voltage ?? full);
  const point = () => pointOf(coil, solution, buses);
  const value = (id: string) => solution.figures.get(id)?.value;
  const [lower, upper] = [value("poles.lower"), value("poles.upper")];
  const without =
    lower === undefined ? undefined : polesWithoutLoss(loopsOf(point()), { poleFactor: { lower: 1, upper: 1 } });
  return {
    point,
    poleFactor: {
      lower: without && lower !== undefined ? lower / without.lower : 1,
      upper: without && upper !== undefined ? upper / without.upper : 1,
    },
    network,
    breakoutTime: network
      ? breakoutTimeOf(solution, network, coil.interrupter?.onTime ?? 100e-6)
      : Number.POSITIVE_INFINITY,
    offset: new Map(),
  };
}

/** Without what a comparator that the higher modes hold makes of a burst. */
function runningOnly(observed: Observed, n: number, { base, coil }: { base: Base; coil: Coil }): Observed {
  if (coil.feedback?.sense !== "secondaryCurrent") return observed;
  if (heldComparator(coil, observed)) return beforeItScatters(observed, n, base);
  if (observed.peaks.length > 0 || runsOnPole(observed, base, loopsOf(base.point(), n))) return observed;
  const { carrier: _carrier, ...rest } = observed;
  return rest;
}

/** Part of the current at full mains below which a record of unknown bus was made at a low one. */
const lowBus = 0.4;

/** Part of the current as drawn by which a height may be off where the current does not grow as drawn: a stalled or chattering bridge. */
const drawnShare = 0.02;

/**
 * The heights of the current, weighed. A record that shows far less current than an assumed bus would drive was made at another bus: then they
 * say nothing.
 */
export function weighed(given: Observed, n: number, { base, coil }: { base: Base; coil: Coil }): Observed {
  const observed = runningOnly(given, n, { base, coil });
  if (observed.peaks.length === 0 || !base.network) return observed;
  const expected = burstSeen(base.network, burstInputOf(base.point(), n), observed).peaks;
  const height = (peaks: readonly number[]) => Math.max(0, ...peaks);
  const drawn = height(expected);
  if (observed.bus?.assumed && height(observed.peaks.map(({ current }) => current)) < lowBus * drawn) {
    const { bus: _bus, ...rest } = observed;
    return { ...rest, peaks: [] };
  }
  const peaks = observed.peaks.map((peak) => ({ ...peak, error: Math.hypot(peak.error, drawnShare * drawn) }));
  return { ...observed, peaks };
}
