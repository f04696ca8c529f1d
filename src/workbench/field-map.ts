/** Potential and field of mode 1 on a grid, for painting on the drawing. */
import type { Coil } from "../description/coil.ts";
import { chargedRings, potentialAt } from "../fields/potential-map.ts";
import { encloses } from "../geometry/outline-stretches.ts";
import { topLoadOutline } from "../parts/index.ts";
import type { Metre } from "../units/si.ts";
import type { FieldMap } from "./contract.ts";
import { fieldStage } from "./field-stage.ts";

/** The part of the half-plane from the axis to `radius` and from the ground to `height`, in evenly spaced points. */
export interface MapGrid {
  readonly radius: Metre;
  readonly height: Metre;
  /** Points across and up, each at least 3. */
  readonly columns: number;
  readonly rows: number;
}

/**
 * Potential [V] and size of the field [V/m] per volt at the top.
 *
 * People and rods beside the axis are not in the picture, though they are in f1. Inside the top load the potential is 1 and the field 0.
 * The field is the slope between neighbouring points: it is rounded off over one grid step, and a surface's peak is in `Solution.peaks`.
 */
export function fieldMap(coil: Coil, { radius, height, columns, rows }: MapGrid): FieldMap {
  const { system, modes } = fieldStage(coil);
  const rings = chargedRings(system.order, modes[0]!.charges);
  const outlines = coil.topload.map(topLoadOutline);
  const acrossAt = even(radius, columns);
  const upAt = even(height, rows);
  const potential = new Float64Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const point = { r: acrossAt[column]!, z: upAt[row]! };
      const inside = outlines.some((outline) => encloses(outline, point));
      potential[row * columns + column] = inside ? 1 : Math.min(potentialAt(rings, point), 1);
    }
  }
  return { radius: acrossAt, height: upAt, potential, field: slopes(potential, { acrossAt, upAt }) };
}

function even(length: number, count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => (length * i) / (count - 1));
}

function slopes(
  potential: Float64Array,
  { acrossAt, upAt }: { acrossAt: Float64Array; upAt: Float64Array },
): Float64Array {
  const [columns, rows] = [acrossAt.length, upAt.length];
  const field = new Float64Array(potential.length);
  for (let row = 0; row < rows; row++) {
    const [below, above] = [Math.max(row - 1, 0), Math.min(row + 1, rows - 1)];
    for (let column = 0; column < columns; column++) {
      const [inner, outer] = [Math.max(column - 1, 0), Math.min(column + 1, columns - 1)];
      const across =
        (potential[row * columns + outer]! - potential[row * columns + inner]!) / (acrossAt[outer]! - acrossAt[inner]!);
      const up =
        (potential[above * columns + column]! - potential[below * columns + column]!) / (upAt[above]! - upAt[below]!);
      field[row * columns + column] = Math.hypot(across, up);
    }
  }
  return field;
}
