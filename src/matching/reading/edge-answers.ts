/** How resonators answer a drive that begins at an edge, or ended at one: columns for a least-squares fit, walked value by value. */
import type { DampedPole } from "../../numerics/damped-fit.ts";

/**
 * How the answer begins.
 * `driven`: the driven resonator's own current; every pole with a real share of its own, in the phase of a driving point without loss.
 * A number: a resonator coupled to it, whose envelope begins without a slope; the poles' shares are opposite and in the ratio of their
 * frequencies to that power (0 its voltage, 1 its current or what a short antenna shows, 2 what a loop shows).
 * `any`: each pole with an amplitude and a phase of its own, where the channel is nothing of the kind.
 */
export type Onset = "driven" | "any" | 0 | 1 | 2;

export interface Answer {
  /** Columns. */
  readonly size: number;
  /** The columns at the next value; the first call gives those nearest to the edge. */
  next(row: Float64Array): void;
}

/** exp(s·τ) at τ = first, first + step, … */
class Walk {
  re: number;
  im: number;
  private readonly turnRe: number;
  private readonly turnIm: number;

  constructor({ decay, angular }: DampedPole, first: number, step: number) {
    this.re = Math.exp(-decay * first) * Math.cos(angular * first);
    this.im = Math.exp(-decay * first) * Math.sin(angular * first);
    this.turnRe = Math.exp(-decay * step) * Math.cos(angular * step);
    this.turnIm = Math.exp(-decay * step) * Math.sin(angular * step);
  }

  advance(): void {
    const { re, im } = this;
    this.re = re * this.turnRe - im * this.turnIm;
    this.im = re * this.turnIm + im * this.turnRe;
  }
}

/** Relative amplitudes of the poles of a gentle onset. */
function sharesOf(poles: readonly DampedPole[], power: number): readonly [number, number] {
  const [first, second] = [poles[0]!, poles[1] ?? poles[0]!];
  return [1, -((second.angular / first.angular) ** power)];
}

/**
 * Quiet before the edge, then a square wave that begins with a whole half-cycle.
 * @param first  distance of the first value behind the edge, ≥ 0, in values
 * @param driven the square's frequency, radians per value
 */
export function squareAnswer(
  onset: Onset,
  { poles, driven, first }: { poles: readonly DampedPole[]; driven: number; first: number },
): Answer {
  const states = poles.map((pole) => new SquareState(pole, { driven, first }));
  if (onset === "driven") {
    return {
      size: poles.length,
      next: (row) => {
        for (let k = 0; k < states.length; k++) {
          row[k] = states[k]!.im;
          states[k]!.advance();
        }
      },
    };
  }
  if (onset === "any") {
    return {
      size: 2 * poles.length,
      next: (row) => {
        for (let k = 0; k < states.length; k++) {
          const state = states[k]!;
          row[2 * k] = state.re;
          row[2 * k + 1] = -state.im;
          state.advance();
        }
      },
    };
  }
  const shares = sharesOf(poles, onset);
  return {
    size: 2,
    next: (row) => {
      row[0] = 0;
      row[1] = 0;
      for (let k = 0; k < states.length; k++) {
        const state = states[k]!;
        const share = shares[k] ?? 0;
        row[0] += share * state.re;
        row[1] -= share * state.im;
        state.advance();
      }
    },
  };
}

/** Σ over the commutations so far of ±2·exp(s·(τ − τ_j)), the first with 1: the poles' part of the answer to a square. */
class SquareState {
  re = 0;
  im = 0;
  private at: number;
  private changes = 0;
  private readonly half: number;
  private readonly pole: DampedPole;
  private readonly turnRe: number;
  private readonly turnIm: number;

  constructor(pole: DampedPole, { driven, first }: { driven: number; first: number }) {
    this.pole = pole;
    this.half = Math.PI / driven;
    this.turnRe = Math.exp(-pole.decay) * Math.cos(pole.angular);
    this.turnIm = Math.exp(-pole.decay) * Math.sin(pole.angular);
    this.at = first;
    this.addChanges();
  }

  advance(): void {
    const { re, im } = this;
    this.re = re * this.turnRe - im * this.turnIm;
    this.im = re * this.turnIm + im * this.turnRe;
    this.at++;
    this.addChanges();
  }

  private addChanges(): void {
    for (; this.changes * this.half <= this.at; this.changes++) {
      const since = this.at - this.changes * this.half;
      const weight =
        (this.changes === 0 ? 1 : 2) * (this.changes % 2 === 0 ? 1 : -1) * Math.exp(-this.pole.decay * since);
      this.re += weight * Math.cos(this.pole.angular * since);
      this.im += weight * Math.sin(this.pole.angular * since);
    }
  }
}

/**
 * Free after the edge, a steady tone of any phase before it; the values are walked away from the edge, back in time.
 * The integral of exp(s·(τ − u))·exp(iΩu) from 0 to τ is (exp(iΩτ) − exp(sτ)) / (iΩ − s).
 *
 * @param first  distance of the first value before the edge, ≥ 0, in values
 */
export function toneAnswer(
  onset: Onset,
  { poles, driven, first }: { poles: readonly DampedPole[]; driven: number; first: number },
): Answer {
  const tone = new Walk({ decay: 0, angular: driven }, -first, -1);
  const walks = poles.map((pole) => new Walk(pole, -first, -1));
  const advance = () => {
    tone.advance();
    for (const walk of walks) walk.advance();
  };
  if (onset === "any" || onset === "driven") {
    return {
      size: 2 * poles.length,
      next: (row) => {
        for (let k = 0; k < walks.length; k++) {
          const walk = walks[k]!;
          row[2 * k] = tone.re - walk.re;
          row[2 * k + 1] = walk.im - tone.im;
        }
        advance();
      },
    };
  }
  const shares = sharesOf(poles, onset);
  return {
    size: 4,
    next: (row) => {
      row.fill(0);
      for (let k = 0; k < walks.length; k++) {
        const walk = walks[k]!;
        const { decay, angular } = poles[k]!;
        const share = shares[k] ?? 0;
        // Both rotations of the tone: a gentle onset is small enough for the second one to be seen beside it.
        for (const side of [1, -1] as const) {
          const re = tone.re - walk.re;
          const im = side * tone.im - walk.im;
          const [bRe, bIm] = [decay, side * driven - angular];
          const size = bRe * bRe + bIm * bIm;
          const column = side === 1 ? 0 : 2;
          row[column]! += (share * (re * bRe + im * bIm)) / size;
          row[column + 1]! -= (share * (im * bRe - re * bIm)) / size;
        }
      }
      advance();
    },
  };
}
