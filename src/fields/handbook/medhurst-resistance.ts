/** Medhurst's ratio of the resistance of a solenoid to that of its wire stretched straight. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Metre } from "../../units/si.ts";

/** Wire diameter over pitch, of the columns. */
const columns = [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1];

/** Length over diameter → ratio by column. Two cells differ between copies: 1.26 (or 1.20) at 0 and 0.4; 2.37 (or 2.27) at 10 and 0.7. */
const rows: readonly (readonly [number, readonly number[]])[] = [
  [0, [5.31, 3.73, 2.74, 2.12, 1.74, 1.44, 1.26, 1.16, 1.07, 1.02]],
  [0.2, [5.45, 3.84, 2.83, 2.2, 1.77, 1.48, 1.29, 1.19, 1.08, 1.02]],
  [0.4, [5.65, 3.99, 2.97, 2.28, 1.83, 1.54, 1.33, 1.21, 1.08, 1.03]],
  [0.6, [5.8, 4.11, 3.1, 2.38, 1.89, 1.6, 1.38, 1.22, 1.1, 1.03]],
  [0.8, [5.8, 4.17, 3.2, 2.44, 1.92, 1.64, 1.42, 1.23, 1.1, 1.03]],
  [1, [5.55, 4.1, 3.17, 2.47, 1.94, 1.67, 1.45, 1.24, 1.1, 1.03]],
  [2, [4.1, 3.36, 2.74, 2.32, 1.98, 1.74, 1.5, 1.28, 1.13, 1.04]],
  [4, [3.54, 3.05, 2.6, 2.27, 2.01, 1.78, 1.54, 1.32, 1.15, 1.04]],
  [6, [3.31, 2.92, 2.6, 2.29, 2.03, 1.8, 1.56, 1.34, 1.16, 1.04]],
  [8, [3.2, 2.9, 2.62, 2.34, 2.08, 1.81, 1.57, 1.34, 1.165, 1.04]],
  [10, [3.23, 2.93, 2.65, 2.37, 2.1, 1.83, 1.58, 1.35, 1.17, 1.04]],
  [Number.POSITIVE_INFINITY, [3.41, 3.11, 2.815, 2.51, 2.22, 1.93, 1.65, 1.395, 1.19, 1.05]],
];

/**
 * Resistance of a close single-layer solenoid over that of the same wire straight, both at radio frequency.
 *
 * Straight lines in wire/pitch; in the other direction straight lines in l/(l + D), so that the last row of the table is reached.
 *
 * @returns  ≥ 1, to multiply `skinResistanceRatio` by
 * @throws OutOfDomain  wire/pitch outside 0.1 … 1, or length or diameter not positive
 * @validity  skin depth small against the wire, many turns, uniform current. Experimental, about 3–5 %
 * @source    medhurst-1947
 */
export function medhurstResistanceRatio({
  length,
  diameter,
  wireDiameter,
  pitch,
}: {
  length: Metre;
  diameter: Metre;
  wireDiameter: Metre;
  pitch: Metre;
}): number {
  const fill = wireDiameter / pitch;
  if (!(fill >= 0.1 && fill <= 1 && length > 0 && diameter > 0)) {
    const got = `wire/pitch ${fill}, ${length} m long, ${diameter} m across`;
    throw new OutOfDomain("medhurstResistanceRatio", `needs wire/pitch in 0.1 … 1 and positive sizes, got ${got}`);
  }
  const place = length / (length + diameter);
  const above = Math.max(
    1,
    rows.findIndex(([x]) => position(x) >= place),
  );
  const [x0, before] = rows[above - 1]!;
  const [x1, after] = rows[above]!;
  const share = (place - position(x0)) / (position(x1) - position(x0));
  return (1 - share) * along(before, fill) + share * along(after, fill);
}

/** l/(l + D) from l/D. */
function position(lengthOverDiameter: number): number {
  return Number.isFinite(lengthOverDiameter) ? lengthOverDiameter / (1 + lengthOverDiameter) : 1;
}

function along(row: readonly number[], fill: number): number {
  const above = Math.max(
    1,
    columns.findIndex((column) => column <= fill),
  );
  const share = (columns[above - 1]! - fill) / (columns[above - 1]! - columns[above]!);
  return (1 - share) * row[above - 1]! + share * row[above]!;
}
