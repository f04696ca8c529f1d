/** Chance that repeats: the same seed gives the same numbers. */

/**
 * Numbers in [0, 1), evenly spread, from a 32-bit counter that is mixed by multiplication and shifts.
 * @validity  for noise that is heard, not for secrets or statistics
 */
export function seededNumbers(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}
