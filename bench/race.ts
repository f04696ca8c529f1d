/** Speed as a ratio to a reference in the same run, so that a slow or a busy machine does not change the verdict. */

export interface Race {
  readonly name: string;
  /** What is measured. It returns its result, so that no compiler drops the work. */
  readonly candidate: () => unknown;
  /** What it is measured against: another way to the same result, or a fixed piece of work. */
  readonly reference: () => unknown;
  /** What the reference is, in words. */
  readonly against: string;
  /** The greatest ratio candidate ÷ reference that is accepted. */
  readonly atMost: number;
}

export interface RaceResult {
  readonly race: Race;
  /** Medians over the rounds [ms]. */
  readonly candidate: number;
  readonly reference: number;
  /** Median of the ratios, round by round. */
  readonly ratio: number;
}

/** Both run alternately, so that what disturbs one disturbs the other. */
const rounds = 15;
/** Work too short for the clock is repeated until a round lasts this long [ms]. */
const shortestRound = 10;

let kept: unknown;

function time(work: () => unknown, times: number): number {
  const began = performance.now();
  for (let i = 0; i < times; i++) kept = work();
  return (performance.now() - began) / times;
}

/** Warms the work up and finds how often it must be repeated. */
function repetitions(work: () => unknown): number {
  let times = 1;
  for (;;) {
    const lasted = time(work, times) * times;
    if (lasted >= shortestRound) return times;
    times *= 2;
  }
}

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

export function run(race: Race): RaceResult {
  const times = { candidate: repetitions(race.candidate), reference: repetitions(race.reference) };
  const pairs = Array.from({ length: rounds }, () => {
    const candidate = time(race.candidate, times.candidate);
    const reference = time(race.reference, times.reference);
    return { candidate, reference, ratio: candidate / reference };
  });
  if (kept === pairs) throw new Error("the work gave back nothing of its own");
  return {
    race,
    candidate: median(pairs.map((pair) => pair.candidate)),
    reference: median(pairs.map((pair) => pair.reference)),
    ratio: median(pairs.map((pair) => pair.ratio)),
  };
}
