/** Where the fit of an even drive begins: frequency and start, from the amplitudes alone. */
import { beside, type DriveSearch, drivenSpan, slack, withBeside } from "./drive-search.ts";
import { evenSteps, heightsOf, type Level, levels } from "./drive-steps.ts";
import { amplitudesOf, type KnownPole, type Span, type StepAnswer } from "./square-drive.ts";

export interface EvenStart {
  readonly poles: readonly KnownPole[];
  readonly at: number;
  readonly half: number;
  readonly beside: number | undefined;
}

interface RoughEven extends EvenStart {
  readonly squares: number;
}

/** A drive is looked for this far from the strongest pole. */
const reach = 0.14;

/** Frequencies that are tried in full. */
const mostTried = 5;

/** Parts of a cycle by which the start is tried later than where the burst stands out. */
const usualStarts = [0, 1 / 4];
/** Of a drive far off both poles, whose burst is a few steps high at any time: each of them shows. */
export const closeStarts = [1 / 8, 3 / 8, 1 / 2];

/** Frequencies of an even drive, the likeliest first. Where it starts hardly matters here: a quarter of a cycle mostly reaches every phase. */
export function roughEven(
  search: DriveSearch,
  known: readonly KnownPole[],
  starts: readonly number[] = usualStarts,
): readonly RoughEven[] {
  const { cycle, startNear, noise, usual } = search;
  const [first] = known;
  if (first === undefined) return [];
  const driven = drivenSpan(search);
  const parts = known.length > 1 ? [undefined] : usual?.beside === undefined ? beside : [usual.beside];
  const middle = usual?.half ?? Math.PI / first.angular;
  const width = usual === undefined ? reach : 0.02;
  const stride = (0.3 * middle * middle) / Math.max(driven.to - startNear, 1);
  const all: RoughEven[] = [];
  for (const part of parts) {
    const poles = part === undefined ? known : withBeside(first, part, noise);
    for (let half = middle * (1 - width); half <= middle * (1 + width); half += stride)
      for (const at of starts.map((later) => startNear + later * cycle)) {
        const steps = evenSteps(at, half, driven.to);
        const found = amplitudesOf(driven, { poles, steps, heights: heightsOf(steps.length, 0), every: 2 });
        if (found !== undefined) all.push({ poles, at, half, beside: part, squares: found.squares });
      }
  }
  all.sort((a, b) => a.squares - b.squares);
  const tried: RoughEven[] = [];
  for (const one of all)
    if (tried.length < mostTried && tried.every(({ half }) => Math.abs(half - one.half) > 1.5 * stride))
      tried.push(one);
  return usual === undefined ? tried : tried.slice(0, 1);
}

/** The start for the frequency as it stands; then, since each depends on the other, both one after the other. */
export function* startsOf(
  search: DriveSearch,
  driven: Span,
  { rough, answer }: { rough: EvenStart; answer: StepAnswer },
): Generator<{ at: number; half: number }> {
  let refined = rough;
  for (let round = 0; round < 2; round++) {
    const start = startOf(driven, search, { rough: refined, answer });
    if (start === undefined) return;
    if (round === 0) yield { at: start.at, half: rough.half };
    refined = { ...refined, at: start.at, half: nearestHalf(driven, { ...start, rough: refined, answer }) };
  }
  yield refined;
}

/** Start and level before it, with the frequency as it stands. */
function startOf(
  span: Span,
  { cycle, startNear }: DriveSearch,
  { rough: { poles, half }, answer }: { rough: EvenStart; answer: StepAnswer },
): { at: number; level: Level } | undefined {
  let best: { at: number; level: Level; squares: number } | undefined;
  for (let at = startNear - slack * cycle; at <= startNear + (slack / 2) * cycle; at += cycle / 10)
    for (const level of levels) {
      const steps = evenSteps(at, half, span.to);
      const found = amplitudesOf(span, { poles, steps, heights: heightsOf(steps.length, level), answer, every: 2 });
      if (found !== undefined && found.squares < (best?.squares ?? Number.POSITIVE_INFINITY))
        best = { at, level, squares: found.squares };
    }
  return best;
}

/** Half-cycles by which the last commutation may be off once the start is known, and steps in which it is looked for. */
const lastOff = 1.2;
const lastSteps = 10;

function nearestHalf(
  span: Span,
  { at, level, rough: { poles, half }, answer }: { at: number; level: Level; rough: EvenStart; answer: StepAnswer },
): number {
  const count = (span.to - at) / half;
  let best = { half, squares: Number.POSITIVE_INFINITY };
  for (let n = -lastSteps; n <= lastSteps; n++) {
    const tried = half * (1 + (n * lastOff) / lastSteps / count);
    const steps = evenSteps(at, tried, span.to);
    const found = amplitudesOf(span, { poles, steps, heights: heightsOf(steps.length, level), answer });
    if (found !== undefined && found.squares < best.squares) best = { half: tried, squares: found.squares };
  }
  return best.half;
}
