/** Slopes of residuals by one-sided differences, for models whose own slopes are longer than they. */

/**
 * d residual / d parameter, [residuals × parameters], row-major, as `levenbergMarquardt` takes it.
 *
 * @param steps  [parameters]: far above rounding, far below where the model bends
 */
export function differenceSlopes(
  residualsOf: (parameters: Float64Array) => Float64Array,
  steps: readonly number[],
): (parameters: Float64Array, residuals: Float64Array) => Float64Array {
  return (parameters, residuals) => {
    const size = steps.length;
    const slopes = new Float64Array(residuals.length * size);
    steps.forEach((step, p) => {
      const moved = parameters.slice();
      moved[p]! += step;
      const then = residualsOf(moved);
      for (let row = 0; row < residuals.length; row++) slopes[row * size + p] = (then[row]! - residuals[row]!) / step;
    });
    return slopes;
  };
}
