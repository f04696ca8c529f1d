/** Long work in steps, for a host that must hear meanwhile that it should stop. */

/**
 * @param breathe  waited for before each step but the first, so that the host's other events are heard
 * @param isWanted  asked before each step, as the signal is
 * @returns  undefined where it was given up
 */
export async function stepByStep<Step, Result>(
  steps: Generator<Step, Result>,
  {
    onStep,
    breathe,
    signal,
    isWanted = () => true,
  }: {
    onStep: (step: Step) => void;
    breathe: () => Promise<unknown>;
    signal: { readonly aborted: boolean };
    isWanted?: () => boolean;
  },
): Promise<Result | undefined> {
  while (!signal.aborted && isWanted()) {
    const { done, value } = steps.next();
    if (done) return value;
    onStep(value);
    await breathe();
  }
  return undefined;
}
