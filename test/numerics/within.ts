/** |actual/expected − 1|, or |actual| where 0 is expected; the tests compare it with a tolerance that carries its reason. */
export function relativeError(actual: number, expected: number): number {
  return expected === 0 ? Math.abs(actual) : Math.abs(actual / expected - 1);
}
