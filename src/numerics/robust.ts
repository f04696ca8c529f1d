/** Order statistics, and a straight line that a few wild points do not move. */

/**
 * The value below which the part `share` of the values lies, between neighbours interpolated.
 * @param values  at least one, all finite; left as they are
 * @param share   0 … 1
 */
export function quantileOf(values: ArrayLike<number>, share: number): number {
  const parted = Float64Array.from(values);
  const at = share * (parted.length - 1);
  const low = Math.floor(at);
  partAt(parted, low);
  const below = parted[low] ?? Number.NaN;
  let above = parted[low + 1] ?? below;
  for (let i = low + 2; i < parted.length; i++) above = Math.min(above, parted[i]!);
  return below + (at - low) * (above - below);
}

/** Fewer values than these are sorted as fast. */
const fewValues = 600;

/**
 * Puts the value of that rank in its place, none that is greater before it, none that is less behind it.
 * @source C. A. R. Hoare, "Algorithm 65: FIND", Comm. ACM 4 (1961) 321; from memory
 */
function partAt(values: Float64Array, rank: number): void {
  let [left, right] = [0, values.length - 1];
  while (right - left > fewValues) {
    const pivot = middleOf(values[left]!, values[(left + right) >> 1]!, values[right]!);
    let [low, high] = [left, right];
    while (low <= high) {
      while (values[low]! < pivot) low++;
      while (values[high]! > pivot) high--;
      if (low > high) break;
      const one = values[low]!;
      values[low++] = values[high]!;
      values[high--] = one;
    }
    if (rank <= high) right = high;
    else if (rank >= low) left = low;
    else return;
  }
  values.subarray(left, right + 1).sort();
}

const middleOf = (a: number, b: number, c: number): number => Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));

/** Half of the values lie below it. At least one value, all finite. */
export function medianOf(values: ArrayLike<number>): number {
  return quantileOf(values, 0.5);
}

/** Median distance from the median, times 1.4826: the standard deviation where the values are normal. */
export function robustDeviation(values: ArrayLike<number>): number {
  const middle = medianOf(values);
  return 1.4826 * medianOf(Float64Array.from(values, (value) => Math.abs(value - middle)));
}

export interface Line {
  readonly slope: number;
  readonly intercept: number;
  /** Standard deviation of the points about the line, over `count − 2`; 0 for two points. */
  readonly scatter: number;
  /** Σ (x − mean x)². */
  readonly spread: number;
}

/** Least-squares line through at least two points with different x. */
export function lineThrough(x: ArrayLike<number>, y: ArrayLike<number>): Line {
  const count = x.length;
  let meanX = 0;
  let meanY = 0;
  for (let i = 0; i < count; i++) {
    meanX += x[i]! / count;
    meanY += y[i]! / count;
  }
  let spread = 0;
  let product = 0;
  for (let i = 0; i < count; i++) {
    spread += (x[i]! - meanX) ** 2;
    product += (x[i]! - meanX) * (y[i]! - meanY);
  }
  const slope = product / spread;
  const intercept = meanY - slope * meanX;
  let squares = 0;
  for (let i = 0; i < count; i++) squares += (y[i]! - intercept - slope * x[i]!) ** 2;
  return { slope, intercept, scatter: count > 2 ? Math.sqrt(squares / (count - 2)) : 0, spread };
}
