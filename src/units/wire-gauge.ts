/** American wire gauge. */
import type { Metre } from "./si.ts";

const writtenGauge = /^(?:awg\s*#?\s*(\d+|\d\/0)|(\d+|\d\/0)\s*awg)$/i;

/**
 * Bare diameter of American wire gauge `gauge`: 0.005 in · 92^((36 − n)/39). 00, 000 and 0000 are −1, −2 and −3.
 *
 * @source ASTM B258 (the closed form; the standard itself prints four figures at most)
 * @validity −3 ≤ gauge ≤ 56
 */
export function diameterOfGauge(gauge: number): Metre {
  return 0.005 * 0.0254 * 92 ** ((36 - gauge) / 39);
}

/** The gauge whose diameter is `diameter` within one part in a million, or undefined. */
export function gaugeOfDiameter(diameter: Metre): number | undefined {
  if (!(diameter > 0)) return undefined;
  const gauge = Math.round(36 - (39 * Math.log(diameter / diameterOfGauge(36))) / Math.log(92));
  const exact = gauge >= -3 && gauge <= 56 && Math.abs(diameterOfGauge(gauge) / diameter - 1) < 1e-6;
  return exact ? gauge : undefined;
}

/** `AWG 28`, `28 AWG`, `AWG 2/0`, `AWG 000` → gauge number; undefined for any other text or a gauge that does not exist. */
export function readGauge(text: string): number | undefined {
  const match = writtenGauge.exec(text.trim());
  if (match === null) return undefined;
  const written = match[1] ?? match[2] ?? "";
  const gauge = written.includes("/")
    ? 1 - Number(written[0])
    : /^0{2,}$/.test(written)
      ? 1 - written.length
      : Number(written);
  return Number.isInteger(gauge) && gauge >= -3 && gauge <= 56 ? gauge : undefined;
}

/** `AWG 28`, `AWG 2/0`. */
export function writeGauge(gauge: number): string {
  return gauge < 0 ? `AWG ${1 - gauge}/0` : `AWG ${gauge}`;
}
