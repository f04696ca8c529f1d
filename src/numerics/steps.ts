/** Long work in steps: a generator that says what it is about to do, so that whoever runs it can listen meanwhile, or give it up. */

/** All steps at once. */
export function allSteps<Step, Result>(steps: Generator<Step, Result>): Result {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
