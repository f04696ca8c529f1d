/** Slopes of residuals by one-sided differences, for models whose own slopes are longer than they. */

/**
 * d residual / d parameter, [residuals × parameters], row-major, as `levenbergMarquardt` takes it.
 *
 * @param residualsOf  may have no finite first value where a parameter passes a bound: the step is then taken the other way
 * @param steps        [parameters]: far above rounding, far below where the model bends
 */
export function differenceSlopes(
  residualsOf: (parameters: Float64Array) => Float64Array,
  steps: readonly number[],
): (parameters: Float64Array, residuals: Float64Array) => Float64Array {
  return (parameters, residuals) => {
    const size = steps.length;
    const slopes = new Float64Array(residuals.length * size);
    const movedBy = (p: number, step: number) => {
      const moved = parameters.slice();
      moved[p]! += step;
      return residualsOf(moved);
    };
    steps.forEach((ahead, p) => {
      const forward = movedBy(p, ahead);
      const step = Number.isFinite(forward[0]) ? ahead : -ahead;
      const then = step === ahead ? forward : movedBy(p, step);
      for (let row = 0; row < residuals.length; row++) slopes[row * size + p] = (then[row]! - residuals[row]!) / step;
    });
    return slopes;
  };
}
