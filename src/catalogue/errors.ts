/**
 * A function was called outside the range it holds for. For programmers: nobody at a bench should ever see one.
 *
 *   throw new OutOfDomain("mutualOfCoaxialRings", "radii must be positive, got 0 m")
 *   → OutOfDomain: mutualOfCoaxialRings: radii must be positive, got 0 m
 *
 * @param where  name of the function that refuses
 * @param what   what it needs and what it got, with units
 */
export class OutOfDomain extends RangeError {
  override readonly name = "OutOfDomain";

  constructor(where: string, what: string) {
    super(`${where}: ${what}`);
  }
}
