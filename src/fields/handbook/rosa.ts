/** Rosa's correction from a current sheet to a winding of round wire. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Henry, Metre } from "../../units/si.ts";
import type { Flux } from "../rings-self.ts";
import { magneticConstant } from "../vacuum.ts";
import { currentSheetInductance } from "./nagaoka.ts";

/**
 * Rosa's G: a round wire in place of the strip one pitch wide, for the turn itself.
 *
 *   G = 5/4 − ln(2p/d) with the flux inside the wire, 3/2 − ln(2p/d) without
 *
 * @throws OutOfDomain  wire or pitch not positive, or wire wider than the pitch
 * @source rosa-1906
 */
export function rosaG({ pitch, wireDiameter, flux }: { pitch: Metre; wireDiameter: Metre; flux: Flux }): number {
  if (!(wireDiameter > 0 && pitch >= wireDiameter)) {
    throw new OutOfDomain("rosaG", `needs pitch ≥ wire > 0, got ${pitch} m and ${wireDiameter} m`);
  }
  return (flux === "internal" ? 1.25 : 1.5) - Math.log((2 * pitch) / wireDiameter);
}

/**
 * Rosa's H: filaments in place of strips, for the mutual inductance of the turns. From its definition, by the mean logarithmic distance of
 * two strips n pitches apart:
 *
 *   H = (2/N)·Σ(n = 1 … N − 1) (N − n)·[3/2 + n²·ln n − ½(n + 1)²·ln(n + 1) − ½(n − 1)²·ln(n − 1) + ln n]
 *
 * It runs from 0 for one turn to ln 2π − 3/2 = 0.3379 for many.
 *
 * @param turns  a whole number above 0
 * @source rosa-1906
 */
export function rosaH(turns: number): number {
  if (!(Number.isInteger(turns) && turns > 0)) throw new OutOfDomain("rosaH", `needs whole turns, got ${turns}`);
  let sum = 0;
  for (let n = turns - 1; n >= 1; n--) sum += (turns - n) * logarithmGap(n);
  return (2 * sum) / turns;
}

/** ln n less the mean logarithmic distance of two unit strips n apart; by its series Σ 2/((2k)(2k+1)(2k+2)·n^2k) where the terms cancel. */
function logarithmGap(n: number): number {
  if (n > 8) {
    const s = 1 / (n * n);
    return s * (1 / 12 + s * (1 / 60 + s * (1 / 168 + s * (1 / 360 + s * (1 / 660 + s / 1092)))));
  }
  const before = n > 1 ? 0.5 * (n - 1) ** 2 * Math.log(n - 1) : 0;
  return 1.5 + (n * n + 1) * Math.log(n) - 0.5 * (n + 1) ** 2 * Math.log(n + 1) - before;
}

/**
 * Inductance of a single-layer winding of round wire: the sheet of length N·p less µ0·a·N·(G + H).
 *
 * @throws OutOfDomain  as `rosaG`, `rosaH` and `currentSheetInductance`
 * @validity  within 1e-5 of the sum over rings for hundreds of turns, 1e-4 for ten; not for windings much shorter than their diameter
 * @source    rosa-1906; nagaoka-1909
 */
export function rosaInductance({
  diameter,
  pitch,
  turns,
  wireDiameter,
  flux,
}: {
  diameter: Metre;
  pitch: Metre;
  turns: number;
  wireDiameter: Metre;
  flux: Flux;
}): Henry {
  const sheet = currentSheetInductance({ diameter, length: turns * pitch, turns });
  const correction = rosaG({ pitch, wireDiameter, flux }) + rosaH(turns);
  return sheet - magneticConstant * (diameter / 2) * turns * correction;
}
