/** What a streamer of given length adds at the top. */
import { electricConstant } from "../fields/vacuum.ts";
import type { Farad, Metre } from "../units/si.ts";

/** Radius of the channel with its space charge [m]: the geometric mean of the millimetre of a bare channel and the centimetre of a branched one. */
const channelRadius = 3e-3;

/**
 * Capacitance that a streamer brings to the top in parallel form [F]. A channel of length L and radius a has 2πε0·L/(ln(2L/a) − 1); with
 * the series resistance 1/(ωC) at which it takes most power, half of that appears in parallel.
 *
 * @param length  [m], ≥ 0; below 20 channel radii the formula is taken in proportion to length
 * @validity an order of magnitude: the radius may be 1 to 10 mm (8 to 13 pF/m at one metre) and the resistance a third to three times as
 *           much, which takes the result from a tenth to 0.9 of the channel's whole capacitance
 * @source channel-capacitance
 */
export function streamerCapacitance(length: Metre): Farad {
  if (!(length > 0)) return 0;
  const shortest = 20 * channelRadius;
  const counted = Math.max(length, shortest);
  const whole = (2 * Math.PI * electricConstant * counted) / (Math.log((2 * counted) / channelRadius) - 1);
  return 0.5 * whole * Math.min(1, length / shortest);
}
