/** Medhurst's self-capacitance of a single-layer solenoid with one end earthed. */
import { OutOfDomain } from "../../numerics/out-of-domain.ts";
import type { Farad, Metre } from "../../units/si.ts";

/** Length over diameter → H [pF/m]; the table of 1947, as carried by a secondary source. */
const table: readonly (readonly [number, number])[] = [
  [0.1, 96],
  [0.15, 79],
  [0.2, 70],
  [0.25, 64],
  [0.3, 60],
  [0.35, 57],
  [0.4, 54],
  [0.45, 52],
  [0.5, 50],
  [0.6, 48],
  [0.7, 47],
  [0.8, 46],
  [0.9, 46],
  [1, 46],
  [1.5, 47],
  [2, 50],
  [2.5, 56],
  [3, 61],
  [3.5, 67],
  [4, 72],
  [4.5, 77],
  [5, 81],
  [6, 92],
  [7, 101],
  [8, 112],
  [9, 122],
  [10, 132],
  [15, 186],
  [20, 236],
  [25, 290],
  [30, 340],
  [40, 460],
  [50, 580],
];

/**
 * Self-capacitance of a solenoid, C = H(l/D)·D, straight lines between the entries of the table.
 *
 * @returns  [F], for the frequency at which the bare winding resonates with its own low-frequency inductance
 * @throws OutOfDomain  l/D outside 0.1 … 50
 * @validity  one end earthed, winding alone. Experimental, about 5 %; above l/D = 4 it parts from the solved winding (0.86 of it at 5)
 * @source    medhurst-1947
 */
export function medhurstCapacitance({ length, diameter }: { length: Metre; diameter: Metre }): Farad {
  const ratio = length / diameter;
  const last = table[table.length - 1]![0];
  if (!(ratio >= table[0]![0] && ratio <= last)) {
    throw new OutOfDomain("medhurstCapacitance", `length/diameter must lie in 0.1 … 50, got ${ratio}`);
  }
  const above = Math.max(
    1,
    table.findIndex(([x]) => x >= ratio),
  );
  const [x0, y0] = table[above - 1]!;
  const [x1, y1] = table[above]!;
  return 1e-12 * diameter * (y0 + ((y1 - y0) * (ratio - x0)) / (x1 - x0));
}
