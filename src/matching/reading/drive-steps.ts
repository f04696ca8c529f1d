/** The steps of a bridge: when, and how high. */

/** Level of the bridge before and after a drive: between the rails, or at the lower one. */
export type Level = 0 | -1;

export const levels: readonly Level[] = [0, -1];

export function heightsOf(count: number, level: Level): Float64Array {
  const heights = new Float64Array(count);
  for (let j = 0; j < count; j++) heights[j] = j === 0 ? 1 - level : j % 2 === 1 ? -2 : 2;
  return heights;
}

export function evenSteps(at: number, half: number, until: number): Float64Array {
  const steps = new Float64Array(Math.max(1, Math.ceil((until - at) / half)));
  for (let j = 0; j < steps.length; j++) steps[j] = at + j * half;
  return steps;
}

export function withLast(values: Float64Array, last: number): Float64Array {
  const all = new Float64Array(values.length + 1);
  all.set(values);
  all[values.length] = last;
  return all;
}
