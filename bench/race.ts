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
  /** Rounds, for work that takes seconds; 15 where absent. */
  readonly rounds?: number;
  /** How long a round lasts at least [ms], for work that needs warming up; 10 where absent. */
  readonly roundLasts?: number;
  /** What belongs beside the ratio, such as how accurate each is; a line each. */
  readonly beside?: (result: RaceResult) => readonly string[];
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
const usualRounds = 15;
/** Work too short for the clock is repeated until a round lasts this long [ms]. */
const usualRound = 10;

let kept: unknown;

function time(work: () => unknown, times: number): number {
  const began = performance.now();
  for (let i = 0; i < times; i++) kept = work();
  return (performance.now() - began) / times;
}

/** Warms the work up and finds how often it must be repeated. */
function repetitions(work: () => unknown, roundLasts: number): number {
  let times = 1;
  for (;;) {
    const lasted = time(work, times) * times;
    if (lasted >= roundLasts) return times;
    times *= 2;
  }
}

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

export function run(race: Race): RaceResult {
  const lasts = race.roundLasts ?? usualRound;
  const times = { candidate: repetitions(race.candidate, lasts), reference: repetitions(race.reference, lasts) };
  const pairs = Array.from({ length: race.rounds ?? usualRounds }, () => {
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
