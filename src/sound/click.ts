/** How a spark clicks: what of it decides the shape of its sound. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Joule, Metre, Pascal, Second } from "../units/si.ts";

export interface Spark {
  /** Length of the channel. */
  readonly length: Metre;
  /** Heat that one pulse leaves in it. */
  readonly energy: Joule;
  /** From the listener to its middle; the listener stands abreast of it. */
  readonly distance: Metre;
  readonly pressure?: Pascal;
}

/** [m/s] at 20 °C. */
const speedOfSound = 343;
const usualPressure: Pascal = 101_325;

export interface Click {
  /** Duration of the pressure pulse that a sudden heating sends out, without the spread. */
  readonly pulse: Second;
  /** Between the first and the last sound from along the channel. */
  readonly spread: Second;
  /** Width over which an edge of the heating is smeared: both together, as root of the sum of their squares. */
  readonly width: Second;
}

/**
 * Widths of a spark's click.
 *
 *   pulse = 0.663/f,  f = 0.63·c·√(p/E′),  E′ = energy/length;   spread = (√(r² + length²/4) − r)/c
 *
 * 0.663 is where the spectrum j₁(π·f·T) of an N of duration T has its peak.
 *
 * @throws OutOfDomain  a length, distance, energy or pressure is not positive and finite
 * @validity  a straight channel heated at once along its length. A streamer branches, grows and is heated over the whole on-time by a
 *            current at radio frequency, so the width may be wrong by a factor of three; N waves lengthen on their way (spark-n-wave), which
 *            is left out. For preview, not for level.
 * @source    thunder-spectrum, spark-n-wave
 */
export function clickOf({ length, energy, distance, pressure = usualPressure }: Spark): Click {
  for (const [name, value] of Object.entries({ length, energy, distance, pressure }))
    if (!(value > 0 && Number.isFinite(value)))
      throw new OutOfDomain("clickOf", `${name} must be positive, got ${value}`);
  const pulse = 0.663 / (0.63 * speedOfSound * Math.sqrt((pressure * length) / energy));
  const spread = (Math.hypot(distance, length / 2) - distance) / speedOfSound;
  return { pulse, spread, width: Math.hypot(pulse, spread) };
}

/** A channel of 0.4 m with 1 J, heard from 4 m: where nothing is known of the spark. Common practice, no source. */
export const usualSpark: Spark = { length: 0.4, energy: 1, distance: 4 };
