/** Where the bridge sees no admittance: the secondary's own frequency, from how strongly the drive rings both poles in the primary's current. */
import { secondaryOf } from "./pair-answer.ts";
import type { SquareDrive } from "./square-drive.ts";

const slopeStep = 1e-6;

/**
 * @param drive     of a channel that shows the primary's current
 * @param variance  of the noise per value
 * @returns  cycles per value with its standard error; undefined where there are not two poles, or their sizes have not one sign
 * @source coupled-circuits; docstring of `secondaryOf`
 */
export function secondaryFromDrive(
  { poles, imaginary, inverse, parameters }: SquareDrive,
  variance: number,
): { readonly value: number; readonly error: number } | undefined {
  if (poles.length !== 2) return undefined;
  const order = poles[0]!.angular < poles[1]!.angular ? ([0, 1] as const) : ([1, 0] as const);
  // Where the normal equations have the size and the angular frequency of a pole.
  const places = order.flatMap((pole) => [2 * pole + 1, 2 * poles.length + 2 + 2 * pole]);
  const at = order.flatMap((pole) => [imaginary[pole]!, poles[pole]!.angular]);
  const frequencyAt = ([atLower = 0, lower = 0, atUpper = 0, upper = 0]: readonly number[]) =>
    (secondaryOf({ lower, upper, sizes: [atLower, atUpper] }) ?? Number.NaN) / (2 * Math.PI);
  const value = frequencyAt(at);
  if (!Number.isFinite(value)) return undefined;
  const slopes = at.map((now, n) => {
    const step = slopeStep * Math.abs(now);
    return (frequencyAt(at.map((one, m) => (m === n ? one + step : one))) - value) / step;
  });
  let sum = 0;
  for (const [n, a] of places.entries())
    for (const [m, b] of places.entries()) sum += slopes[n]! * slopes[m]! * inverse[a * parameters + b]!;
  return { value, error: Math.sqrt(variance * Math.max(0, sum)) };
}
