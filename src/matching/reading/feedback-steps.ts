/** When a bridge commutates that follows its own current: simulated from the poles, for channels that do not show that current. */
import type { DampedPole } from "../../numerics/damped-fit.ts";

/** What the commutations follow from, poles apart. */
export interface Feedback {
  /** Place of the first step [values]. */
  readonly start: number;
  /** From a zero of the primary's current to the commutation [values]; negative where the feedback leads. */
  readonly delay: number;
  /** The secondary's own frequency, from the lower pole (0) to the upper (1): how the current is shared between them. */
  readonly between: number;
  /** Decay of the secondary's own, over the sum of the poles' decays. */
  readonly damping: number;
  /** How much later it commutates after the first half-cycle, where the current passes a threshold late [values]; less as the current grows. */
  readonly growth: number;
}

/** Half-cycles are at least this part of a cycle long. */
const shortest = 0.25;
/** Steps to a cycle in which a zero is looked for, and the longest half-cycle that still counts, in cycles. */
const perCycle = 12;
const longest = 1.2;

interface Mode {
  /** Answer of the current to a step of height 1. */
  readonly re: number;
  readonly im: number;
  readonly decay: number;
  readonly angular: number;
}

/**
 * Places of at most `most` steps before `until`: the start, then every commutation.
 *
 * @param poles  two, lower first, per value
 */
export function feedbackSteps(
  poles: readonly DampedPole[],
  { start, delay, between, damping, growth }: Feedback,
  { until, most }: { until: number; most: number },
): readonly number[] {
  const modes = currentModes(poles, { between, damping });
  const cycle = (4 * Math.PI) / poles.reduce((sum, { angular }) => sum + angular, 0);
  const current = new StepCurrent(modes);
  const steps: number[] = [start];
  let steepness = 0;
  current.step(start, 1);
  while (steps.length < most) {
    const last = steps[steps.length - 1]!;
    const zero = current.zeroAfter(last + shortest * cycle, { sign: steps.length % 2 === 1 ? 1 : -1, cycle });
    if (zero === undefined) break;
    steepness ||= Math.abs(zero.slope);
    const next = zero.at + delay + (growth * steepness) / Math.abs(zero.slope);
    if (!(next < until) || next <= last) break;
    current.step(next, steps.length % 2 === 1 ? -2 : 2);
    steps.push(next);
  }
  return steps;
}

/** Modes of the primary's current: (s² + 2·d·s + ω²)/Π(s − sₖ), ω and d of the secondary by itself. */
function currentModes(
  poles: readonly DampedPole[],
  { between, damping }: Pick<Feedback, "between" | "damping">,
): readonly Mode[] {
  const [lower, upper] = poles as readonly [DampedPole, DampedPole];
  const own = lower.angular + between * (upper.angular - lower.angular);
  const decay = damping * (lower.decay + upper.decay);
  return poles.map((pole, k) => {
    const s = { re: -pole.decay, im: pole.angular };
    const other = poles[1 - k]!;
    const square = times(s, s);
    const above = { re: square.re + 2 * decay * s.re + own ** 2 + decay ** 2, im: square.im + 2 * decay * s.im };
    // (s − s̄)(s − t)(s − t̄) with t the other pole.
    const beside = {
      re: square.re + 2 * other.decay * s.re + other.decay ** 2 + other.angular ** 2,
      im: square.im + 2 * other.decay * s.im,
    };
    const below = times({ re: 0, im: 2 * s.im }, beside);
    const size = below.re ** 2 + below.im ** 2;
    const amplitude = times(above, { re: below.re / size, im: -below.im / size });
    return { ...amplitude, decay: pole.decay, angular: pole.angular };
  });
}

interface Complex {
  readonly re: number;
  readonly im: number;
}

function times(a: Complex, b: Complex): Complex {
  return { re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re };
}

interface Passing {
  readonly at: number;
  readonly slope: number;
}

/** The current after steps, as the state of its modes at the last of them. */
class StepCurrent {
  private readonly modes: readonly Mode[];
  private readonly state: Float64Array;
  private at = 0;

  constructor(modes: readonly Mode[]) {
    this.modes = modes;
    this.state = new Float64Array(2 * modes.length);
  }

  step(at: number, height: number): void {
    const since = at - this.at;
    for (const [k, { re, im, decay, angular }] of this.modes.entries()) {
      const size = Math.exp(-decay * since);
      const turn = { re: size * Math.cos(angular * since), im: size * Math.sin(angular * since) };
      const old = times({ re: this.state[2 * k]!, im: this.state[2 * k + 1]! }, turn);
      this.state[2 * k] = old.re + height * re;
      this.state[2 * k + 1] = old.im + height * im;
    }
    this.at = at;
  }

  /** First place from `from` on where the current, with this sign before, passes zero. */
  zeroAfter(from: number, { sign, cycle }: { sign: 1 | -1; cycle: number }): Passing | undefined {
    const stride = cycle / perCycle;
    let before = { at: from, value: sign * this.valueAt(from).value };
    if (before.value <= 0) return undefined;
    for (let at = from + stride; at < from + longest * cycle; at += stride) {
      const value = sign * this.valueAt(at).value;
      if (value <= 0) return this.sharpened(before.at + (stride * before.value) / (before.value - value));
      before = { at, value };
    }
    return undefined;
  }

  private sharpened(near: number): Passing {
    let [at, slope] = [near, 0];
    for (let round = 0; round < 3; round++) {
      const found = this.valueAt(at);
      slope = found.slope;
      at -= found.value / slope;
    }
    return { at, slope };
  }

  private valueAt(at: number): { value: number; slope: number } {
    const since = at - this.at;
    let [value, slope] = [0, 0];
    for (const [k, { decay, angular }] of this.modes.entries()) {
      const size = Math.exp(-decay * since);
      const c = size * Math.cos(angular * since);
      const s = size * Math.sin(angular * since);
      const re = this.state[2 * k]! * c - this.state[2 * k + 1]! * s;
      const im = this.state[2 * k]! * s + this.state[2 * k + 1]! * c;
      value += re;
      slope += -decay * re - angular * im;
    }
    return { value, slope };
  }
}
