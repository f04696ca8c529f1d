/** What a gap in air holds: two laws that enclose a real one, a sharp pair below and a smooth pair above. */
import { OutOfDomain } from "../../catalogue/errors.ts";
import type { Metre, Ratio, Volt } from "../../units/si.ts";

/** Gap [m] and peak sparkover [V] of needle points, 760 mmHg and 25 °C. */
const needles: readonly (readonly [Metre, Volt])[] = [
  [0.0085, 10e3],
  [0.0175, 20e3],
  [0.0269, 30e3],
  [0.052, 50e3],
  [0.0881, 70e3],
  [0.155, 100e3],
  [0.261, 150e3],
  [0.357, 200e3],
  [0.547, 300e3],
];

/**
 * Peak voltage that flashes over between needle points: the lowest law for a gap between conductors with edges.
 *
 * Between the table's rows by straight lines; below its first row in proportion, which is low on purpose; above its last row by the rod-rod
 * law 2 kV + 0.534 kV/mm, never more than the last row in proportion. Proportional to the relative density of the air.
 *
 * @param gap      [m], > 0
 * @param density  relative to 20 °C and 1013 hPa, > 0
 * @returns        [V] peak
 * @throws OutOfDomain  gap or density is not positive
 * @validity  8.5 mm to 2.5 m; single voltage rises, not channels used again from burst to burst; needles scatter by 10 % and more
 * @source    aiee-needle-gap; iec-60060-1 above 547 mm
 */
export function needleGapSparkover({ gap, density }: { gap: Metre; density: Ratio }): Volt {
  if (!(gap > 0 && density > 0)) {
    throw new OutOfDomain("needleGapSparkover", `gap and density must be positive, got ${gap} m and ${density}`);
  }
  let [fromGap, fromVolts] = [0, 0];
  for (const [rowGap, rowVolts] of needles) {
    if (gap <= rowGap) return density * (fromVolts + ((rowVolts - fromVolts) * (gap - fromGap)) / (rowGap - fromGap));
    [fromGap, fromVolts] = [rowGap, rowVolts];
  }
  const rods = 2e3 + 0.534e6 * gap;
  return density * Math.min(rods, (fromVolts * gap) / fromGap);
}

/**
 * Peak voltage that breaks down a uniform field: the highest law for a gap between smooth conductors.
 *
 *   U = 24.22·δd + 6.08·√(δd)  kV, d in cm
 *
 * @param gap      [m], > 0
 * @param density  relative to 20 °C and 1013 hPa, > 0
 * @returns        [V] peak
 * @throws OutOfDomain  gap or density is not positive
 * @validity  about 0.1 mm to 100 mm; above that no gap in a coil is uniform
 * @source    uniform-field-air
 */
export function uniformGapBreakdown({ gap, density }: { gap: Metre; density: Ratio }): Volt {
  if (!(gap > 0 && density > 0)) {
    throw new OutOfDomain("uniformGapBreakdown", `gap and density must be positive, got ${gap} m and ${density}`);
  }
  const product = density * gap * 100;
  return 1e3 * (24.22 * product + 6.08 * Math.sqrt(product));
}

/**
 * Gap between sharp conductors that a peak voltage needs, the inverse of `needleGapSparkover`.
 *
 * @param volts  peak, > 0
 * @returns      [m], within a micrometre
 * @throws OutOfDomain  volts or density is not positive
 */
export function needleGapFor({ volts, density }: { volts: Volt; density: Ratio }): Metre {
  if (!(volts > 0)) throw new OutOfDomain("needleGapFor", `volts must be positive, got ${volts} V`);
  let [low, high] = [0, 1e-3];
  while (needleGapSparkover({ gap: high, density }) < volts) high *= 2;
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (needleGapSparkover({ gap: middle, density }) < volts) low = middle;
    else high = middle;
  }
  return high;
}
