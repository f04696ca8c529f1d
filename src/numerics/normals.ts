/** Normal numbers of mean 0 and variance 1, the same for the same seed: a congruence of 32 bits behind a mixing step, by Box and Muller. */
export function normals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    let x = Math.imul(state ^ (state >>> 16), 0x45d9f3b);
    x = Math.imul(x ^ (x >>> 15), 0x2c1b3c6d);
    return ((x ^ (x >>> 13)) >>> 0) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
