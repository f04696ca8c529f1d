/** Thrown to programmers who call a formula outside the range that its docstring states; never shown to somebody at a bench. */
export class OutOfDomain extends RangeError {
  /** @param where name of the function, @param why what was required and what came, e.g. `radii must be positive, got 0 m` */
  constructor(where: string, why: string) {
    super(`${where}: ${why}`);
    this.name = "OutOfDomain";
  }
}
