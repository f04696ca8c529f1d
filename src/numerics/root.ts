/** Roots of continuous functions of one variable. */
import { OutOfDomain } from "./out-of-domain.ts";

/**
 * A root between two ends at which the function has opposite signs, by regula falsi with the Illinois step.
 *
 * @param tolerance  [the unit of the ends] the bracket is narrowed, or its step falls, below this
 * @throws OutOfDomain  the ends have the same sign
 * @source Dowell & Jarratt, A modified regula falsi method, BIT 11 (1971)
 */
export function bracketedRoot(
  value: (x: number) => number,
  { low, high, tolerance }: { low: number; high: number; tolerance: number },
): number {
  let [a, b] = [low, high];
  let [fa, fb] = [value(a), value(b)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (fa > 0 === fb > 0) throw new OutOfDomain("bracketedRoot", `no change of sign between ${low} and ${high}`);
  let before = b;
  for (let pass = 0; pass < 200; pass++) {
    const x = (a * fb - b * fa) / (fb - fa);
    const fx = value(x);
    if (fx === 0 || Math.abs(b - a) < tolerance || Math.abs(x - before) < tolerance) return x;
    before = x;
    if (fx > 0 === fb > 0) {
      fa *= 0.5;
    } else {
      a = b;
      fa = fb;
    }
    b = x;
    fb = fx;
  }
  return 0.5 * (a + b);
}
