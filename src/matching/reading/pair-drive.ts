/** Both poles of a coil from the driven part of one burst of its tank's current. */

import { type DrivenBurst, startSlack } from "./driven-burst.ts";
import { type Begun, beginnings } from "./pair-begin.ts";
import { currentOf, type DrivenSpan, fitPair, type PairFitted } from "./pair-fit.ts";
import { pairStarts, type Trial } from "./pair-start.ts";
import { followingChanges, type ZeroSeen, zerosByModel, zerosSeen } from "./pair-steps.ts";
import { smoothed, zerosOf } from "./zeros.ts";

export interface DrivenPair {
  readonly fitted: PairFitted;
  /** Up to here the drive was explained. */
  readonly until: number;
}

/** Cycles that are explained first, fewer where a deep notch lies in them; what follows is added piece by piece while it is explained. */
const first = [13, 9];
const piece = 7;
const fewestCycles = 9;
const mostCycles = 80;
/** Cycles before the start that are fitted. */
const quiet = 5;

/** Rounds in which the zeros are taken anew, and iterations of each. */
const again = { rounds: 8, iterations: 5, gain: 0.2 };

/** Mean square over the noise's that counts as explained; a channel may be bent by this part of its greatest value. */
const explained = 1.6;
const bent = 0.003;

/**
 * Undefined where no pair explains the first cycles of the drive.
 *
 * @validity  a square between two rails that changes with the tank's current, at least nine cycles of it; the
 *            secondary unloaded, or loaded later than that
 */
export function readPair(burst: DrivenBurst): DrivenPair | undefined {
  const { start, end, cycle } = burst;
  const cycles = (end - start) / cycle;
  if (!(cycles > fewestCycles && cycles < mostCycles) || !(burst.noise > 0) || start < 2 * cycle) return undefined;
  const zeros = zerosIn(burst);
  const charge = chargeOf(burst);
  for (const length of first) {
    const to = Math.floor(Math.min(end, start + length * cycle));
    const found = pairFrom(burst, zeros, {
      ...burst,
      from: Math.max(0, Math.floor(start - quiet * cycle)),
      to,
      charge,
    });
    if (found !== undefined) return found;
  }
  return undefined;
}

/** The pair that explains most of the drive, of the likeliest two; the second is asked only where the first explains nothing. */
function pairFrom(burst: DrivenBurst, zeros: readonly ZeroSeen[], span: DrivenSpan): DrivenPair | undefined {
  for (const start of pairStarts(trialOf(burst, span, zeros)).slice(0, 2)) {
    let best: DrivenPair | undefined;
    const begun = [...beginnings(burst, span, zeros, start)].sort((a, b) => a.fitted.squares - b.fitted.squares);
    for (const { fitted, seen } of begun.slice(0, 2)) {
      const one = grown(burst, { ...span, seen, fitted });
      if (one !== undefined && one.until > (best?.until ?? 0)) best = one;
      if (best !== undefined && best.until > burst.end - 1) break;
    }
    if (best !== undefined) return best;
  }
  return undefined;
}

/** Zeros that the record shows, those of the noise before the drive among them. */
function zerosIn({ values, cycle, start, end, peak }: DrivenBurst): readonly ZeroSeen[] {
  const range = { from: start - startSlack.earlier * cycle, to: end, every: 1, origin: 0, apart: cycle / 4 };
  return zerosSeen(zerosOf(smoothed(values, cycle), range), peak);
}

/** What the current has carried from the bus up to each value, over the whole. */
function chargeOf({ values, start, end }: DrivenBurst): Float64Array {
  const charge = new Float64Array(values.length);
  let sum = 0;
  for (let n = 0; n < charge.length; n++) {
    const value = values[n]!;
    if (n > start && n < end && value - value === 0) sum += Math.abs(value);
    charge[n] = sum;
  }
  return charge.map((part) => part / (sum || 1));
}

function trialOf({ start, cycle, values, noise }: DrivenBurst, { to }: DrivenSpan, zeros: readonly ZeroSeen[]): Trial {
  const steps = zeros.map(({ at }) => at).filter((at) => at > start + cycle / 4 && at < to);
  return {
    values,
    noise,
    cycle,
    from: Math.ceil(start + startSlack.later * cycle),
    to,
    changes: Float64Array.of(start, ...steps),
  };
}

/** The longest part of the drive that is explained, the zeros taken anew from the model in each round. */
function grown(burst: DrivenBurst, begun: DrivenSpan & Begun): DrivenPair | undefined {
  const { cycle, end, peak, noise } = burst;
  const enough = explained + (bent * peak) ** 2 / noise;
  let { to, fitted } = begun;
  let best: DrivenPair | undefined;
  for (;;) {
    const span: DrivenSpan = { ...begun, to: Math.floor(to) };
    const within = begun.seen.filter(({ at }) => at < to);
    for (let round = 0; round < again.rounds; round++) {
      const changes = followingChanges(ledZeros(burst, fitted, within), cycle);
      const next = fitPair(span, changes, fitted, again.iterations);
      if (next === undefined) return best;
      const still = round > 0 && Math.abs(next.squares - fitted.squares) < again.gain;
      fitted = next;
      if (still) break;
    }
    if (!(fitted.left < enough && leftIn(span, fitted, best?.until ?? begun.from) < enough)) return best;
    best = { fitted, until: to };
    if (to >= Math.floor(end)) return best;
    to = Math.min(Math.floor(end), to + piece * cycle);
  }
}

/** Mean square that is left from a place on, over the noise's variance. */
function leftIn({ values, from, to, noise }: DrivenSpan, fitted: PairFitted, place: number): number {
  const { response, steps, heights, scale, offset } = fitted;
  const current = currentOf(response, { steps, heights, from, to });
  let [sum, count] = [0, 0];
  for (let n = Math.max(0, Math.ceil(place) - from); n < current.length; n++) {
    const rest = values[from + n]! - offset - scale * current[n]!;
    if (rest - rest !== 0) continue;
    sum += rest * rest;
    count++;
  }
  return count > 0 ? sum / count / noise : 0;
}

function ledZeros(
  { cycle, peak }: DrivenBurst,
  { response, scale, steps, heights, moves }: PairFitted,
  within: readonly ZeroSeen[],
): readonly ZeroSeen[] {
  const scaled = {
    poles: response.poles,
    real: response.real.map((part) => part * scale),
    imaginary: response.imaginary.map((part) => part * scale),
    steps,
  };
  return zerosByModel(within, scaled, { heights, lead: moves[2] ?? 0, cycle, peak });
}
