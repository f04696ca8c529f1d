/** Zeros of a curve. */
import { analyticSignal } from "../../numerics/analytic-signal.ts";
import { bridged } from "./stretch.ts";

export interface Zero {
  readonly at: number;
  /** Greatest value of the half-cycle before it. */
  readonly height: number;
}

/** Zeros of a curve whose first value is at `origin` and whose values are `every` apart. */
export function zerosOf(
  curve: Float64Array,
  { from, to, every, origin, apart }: { from: number; to: number; every: number; origin: number; apart: number },
): readonly Zero[] {
  const zeros: Zero[] = [];
  let height = 0;
  for (let i = 1; i < curve.length; i++) {
    const [a, b] = [curve[i - 1]!, curve[i]!];
    const crosses = a < 0 !== b < 0;
    const at = origin + every * (i - 1 + (crosses ? a / (a - b) : 0));
    if (at > to) break;
    if (crosses && at >= from && at - (zeros[zeros.length - 1]?.at ?? Number.NEGATIVE_INFINITY) > apart) {
      zeros.push({ at, height });
      height = 0;
    }
    if (at >= from - apart) height = Math.max(height, Math.abs(b));
  }
  return zeros;
}

export function smoothed(values: Float64Array, cycle: number): Float64Array {
  return analyticSignal(bridged(values, cycle / 2), { low: 0.25 / cycle, high: Math.min(0.5, 3.5 / cycle) }).real;
}
