/** The cylindrical current sheet: Nagaoka's coefficient and the inductance it gives. */
import { completeElliptic } from "../../numerics/elliptic.ts";
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Henry, Metre } from "../../units/si.ts";
import { magneticConstant } from "../vacuum.ts";

/** Below this parameter (K − E)/m is taken from its series, which the subtraction would spoil. */
const seriesBelow = 1e-4;

/**
 * Nagaoka's coefficient: inductance of a cylindrical current sheet over that of the same length of an endless one.
 *
 *   κ = 4/(3π·k')·[k'²·(K − E)/k² + E − k],   k² = D²/(D² + l²),   k'² = l²/(D² + l²)
 *
 * @throws OutOfDomain  diameter or length not positive
 * @validity  exact for an infinitely thin sheet. Computed to 1e-13 for D/l up to 10; E − k loses (D/l)² of that beyond
 * @source    nagaoka-1909
 */
export function nagaokaCoefficient({ diameter, length }: { diameter: Metre; length: Metre }): number {
  if (!(diameter > 0 && length > 0)) {
    throw new OutOfDomain(
      "nagaokaCoefficient",
      `needs positive diameter and length, got ${diameter} m and ${length} m`,
    );
  }
  const diagonal = Math.hypot(diameter, length);
  const k = diameter / diagonal;
  const complement = length / diagonal;
  const m = k * k;
  const { K, E } = completeElliptic({ m, m1: complement * complement });
  const slope = m < seriesBelow ? (Math.PI / 4) * (1 + m * (3 / 8 + m * (15 / 64))) : (K - E) / m;
  return ((4 / (3 * Math.PI)) * (complement * complement * slope + E - k)) / complement;
}

/**
 * Inductance of a cylindrical current sheet, L = µ0·π·D²·N²/(4·l)·κ.
 *
 * @throws OutOfDomain  diameter, length or turns not positive
 * @validity  exact for a sheet. Round wires differ by Rosa's correction: a few tenths of a per cent for many turns of close-wound wire
 * @source    nagaoka-1909
 */
export function currentSheetInductance({
  diameter,
  length,
  turns,
}: {
  diameter: Metre;
  length: Metre;
  turns: number;
}): Henry {
  if (!(turns > 0)) throw new OutOfDomain("currentSheetInductance", `turns must be positive, got ${turns}`);
  const endless = (magneticConstant * Math.PI * diameter ** 2 * turns ** 2) / (4 * length);
  return endless * nagaokaCoefficient({ diameter, length });
}
