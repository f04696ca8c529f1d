/** What one burst adds up to: the ledger of energy, and the peaks of every half-cycle. */
import type { Branch } from "../circuit/branch.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import { place } from "../circuit/state.ts";
import { greatestDegree, polynomialAt, signChanges } from "../numerics/bernstein.ts";
import { gaussLegendre } from "../numerics/gauss.ts";
import type { Second } from "../units/si.ts";
import type { StepSeries } from "./series.ts";

/** The stretch between two changes of sign of a waveform, and its absolute peak. */
export interface Lobe {
  sign: 1 | -1;
  from: Second;
  to: Second;
  peak: number;
  time: Second;
}

/** Points of a Gauss–Legendre rule that integrates the square of a series over an angle to this share of a rounding. */
const quadratureError = 1e-14;

/**
 * Least number of points for squares over rate·h = angle.
 * @source error term of Gauss–Legendre quadrature on [0, 1], (n!)⁴/((2n + 1)·((2n)!)³)·f⁽²ⁿ⁾; Abramowitz & Stegun 25.4.30
 */
function pointsFor(angle: number): number {
  let logError = Number.POSITIVE_INFINITY;
  let count = 2;
  while (logError > Math.log(quadratureError) && count < 40) {
    count++;
    let logFactorial = 0;
    let logDouble = 0;
    for (let k = 2; k <= 2 * count; k++) {
      if (k <= count) logFactorial += Math.log(k);
      logDouble += Math.log(k);
    }
    logError = 2 * count * Math.log(2 * angle) + 4 * logFactorial - 3 * logDouble - Math.log(2 * count + 1);
  }
  return count;
}

/** Follows a waveform from one point to the next and keeps its lobes; between two points it must not turn. */
class LobeCounter {
  readonly done: Lobe[] = [];
  open: Lobe | undefined;
  #previous: Second = 0;

  visit(time: Second, value: number): void {
    const size = Math.abs(value);
    const open = this.open;
    if (value !== 0) {
      const sign = value > 0 ? 1 : -1;
      if (open?.sign === sign) {
        if (size > open.peak) {
          open.peak = size;
          open.time = time;
        }
      } else {
        if (open) {
          open.to = this.#previous;
          this.done.push(open);
        }
        this.open = { sign, from: this.#previous, to: time, peak: size, time };
      }
    }
    this.#previous = time;
  }
}

export class Account {
  /** ∫|i| and ∫i² through switches and through diodes, ∫i² in all, [A·s], [A²·s]. */
  switchCharge = 0;
  switchSquare = 0;
  diodeCharge = 0;
  diodeSquare = 0;
  /** ∫i_m² of each mode and of the streamer. */
  readonly modeSquares: Float64Array;
  streamerSquare = 0;
  /** Sums of all falls and of all rises of the bus capacitors' energy [J]. */
  drawn = 0;
  returned = 0;
  peakTankVoltage = 0;
  peakTankVoltageTime: Second = 0;
  readonly primary = new LobeCounter();
  readonly top = new LobeCounter();

  readonly #nodes: Float64Array;
  readonly #weights: Float64Array;
  readonly #slope = new Float64Array(greatestDegree + 1);
  readonly #turns = new Float64Array(greatestDegree + 1);
  readonly #watchTop: boolean;

  /** @param angle  longest step as rate·h */
  constructor(network: BurstNetwork, angle: number) {
    const { nodes, weights } = gaussLegendre(pointsFor(angle));
    this.#nodes = nodes;
    this.#weights = weights;
    this.modeSquares = new Float64Array(network.modes.length);
    this.#watchTop = network.modes.length > 0;
  }

  /** The values at the very start. */
  begin(x: Float64Array): void {
    this.primary.visit(0, x[place.current]!);
    this.#visitTank(0, x[place.tank]!);
    if (this.#watchTop) this.top.visit(0, topVoltage(x));
  }

  /**
   * Adds the part 0 ≤ τ ≤ `until` of a step.
   * @param start   time at τ = 0
   * @param before  state at τ = 0
   * @param after   state at τ = until
   */
  add({
    series,
    branch,
    sparking,
    start,
    until,
    before,
    after,
  }: {
    series: StepSeries;
    branch: Branch;
    sparking: boolean;
    start: Second;
    until: number;
    before: Float64Array;
    after: Float64Array;
  }): void {
    const { degree, duration, states } = series;
    const end = start + until * duration;
    if (branch.sign !== 0) {
      const square = this.#squareOf(states[place.current]!, degree, until) * duration;
      const charge = integralOf(states[place.current]!, degree, until) * duration;
      if (branch.way === "upperSwitch" || branch.way === "lowerSwitch") {
        this.switchSquare += square;
        this.switchCharge += Math.abs(charge);
      } else {
        this.diodeSquare += square;
        this.diodeCharge += Math.abs(charge);
      }
      // The capacitors' voltages are straight lines in the charge; their energies would cancel to a few digits.
      const fall =
        (charge / 2) *
        (branch.upper * (before[place.busUpper]! + after[place.busUpper]!) +
          branch.lower * (before[place.busLower]! + after[place.busLower]!));
      if (fall > 0) this.drawn += fall;
      else this.returned -= fall;
      this.#follow(this.primary, states[place.current]!, degree, start, duration, until);
      this.primary.visit(end, after[place.current]!);
      this.#visitTank(end, after[place.tank]!);
    }
    for (let m = 0; m < this.modeSquares.length; m++)
      this.modeSquares[m]! += this.#squareOf(states[place.modes + 2 * m]!, degree, until) * duration;
    if (sparking) this.streamerSquare += this.#squareOf(series.streamerCurrent, degree, until) * duration;
    if (this.#watchTop) {
      this.#follow(this.top, series.top, degree, start, duration, until);
      this.top.visit(end, topVoltage(after));
    }
  }

  #visitTank(time: Second, voltage: number): void {
    if (Math.abs(voltage) <= this.peakTankVoltage) return;
    this.peakTankVoltage = Math.abs(voltage);
    this.peakTankVoltageTime = time;
  }

  /** ∫₀^until p(τ)² dτ */
  #squareOf(p: Float64Array, degree: number, until: number): number {
    const nodes = this.#nodes;
    const weights = this.#weights;
    let sum = 0;
    for (let n = 0; n < nodes.length; n++) {
      const value = polynomialAt(p, degree, nodes[n]! * until);
      sum += weights[n]! * value * value;
    }
    return sum * until;
  }

  /** Visits every turning point of p inside the step. */
  #follow(counter: LobeCounter, p: Float64Array, degree: number, start: Second, duration: Second, until: number): void {
    const slope = this.#slope;
    for (let k = 0; k < degree; k++) slope[k] = (k + 1) * p[k + 1]!;
    const count = signChanges(slope, degree - 1, this.#turns);
    for (let n = 0; n < count; n++) {
      const tau = this.#turns[n]!;
      if (tau >= until) break;
      counter.visit(start + tau * duration, polynomialAt(p, degree, tau));
    }
  }
}

/** ∫₀^until p(τ) dτ */
function integralOf(p: Float64Array, degree: number, until: number): number {
  let sum = 0;
  for (let k = degree; k >= 0; k--) sum = sum * until + p[k]! / (k + 1);
  return sum * until;
}

function topVoltage(x: Float64Array): number {
  let sum = 0;
  for (let at = place.modes + 1; at < x.length; at += 2) sum += x[at]!;
  return sum;
}
