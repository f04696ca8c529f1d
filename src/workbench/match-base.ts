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
  const point = () => {
    const made = pointOf(coil, solution, buses);
    observed.forEach(({ fixedFrequency }, n) => {
      if (fixedFrequency !== undefined) made.records[n]!.fixedFrequency = fixedFrequency;
    });
    return made;
  };
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
const drawnShare = 0.01;

/** Of the logarithm of a bus that an assumed one is not: a variable transformer, or a lamp in series. */
const unknownBus = 1.5;

/**
 * The heights of the current, weighed: each may be off by what the higher modes of the secondary, which the fit leaves out, would do. A record that shows far less current than an assumed bus would drive was made at another bus, or nothing
 * drives it as drawn: then the bus counts as unknown, and only how the current grows tells.
 */
export function weighed(given: Observed, n: number, { base, solution }: { base: Base; solution: Solution }): Observed {
  const observed = runningOnly(given, n, { base, coil: solution.coil });
  if (observed.peaks.length === 0 || !base.network) return observed;
  const input = burstInputOf(base.point(), n);
  const expected = burstSeen(base.network, input, observed).peaks;
  const whole = burstSeen(networkToMove(solution, 3)!, input, observed).peaks;
  const height = (peaks: readonly number[]) => Math.max(0, ...peaks);
  const drawn = height(expected);
  const seen = height(observed.peaks.map(({ current }) => current));
  const other = observed.bus?.assumed === true && seen < lowBus * drawn;
  const scale = other ? seen / drawn : 1;
  const peaks = observed.peaks.map((peak, k) => ({
    ...peak,
    error: Math.hypot(peak.error, scale * drawnShare * drawn, scale * ((whole[k] ?? 0) - (expected[k] ?? 0))),
  }));
  return {
    ...observed,
    peaks,
    ...(other ? { bus: { ...observed.bus, error: unknownBus * observed.bus.voltage, unknown: true } } : {}),
  };
}
