/** One step of the exact solution: the Taylor series of x(t + τ·h), 0 ≤ τ ≤ 1, of every state and of what the driver watches. */
import type { Branch } from "../circuit/branch.ts";
import { type BurstNetwork, leakageInductance } from "../circuit/network.ts";
import { place, stateSize } from "../circuit/state.ts";
import { greatestDegree } from "../numerics/bernstein.ts";
import type { Second } from "../units/si.ts";

/** What is left out of a series, relative to the energy norm of the state, is below this. */
const leftOut = 1e-16;

/** Greatest rate·h at which a series of this degree leaves out less than `leftOut`, by degree. */
const reach = Float64Array.from({ length: greatestDegree + 1 }, (_, degree) => {
  if (degree === 0) return 0;
  let logFactorial = 0;
  for (let k = 2; k <= degree; k++) logFactorial += Math.log(k);
  return Math.exp((Math.log(leftOut) + logFactorial) / degree);
});

/** Least degree that reaches over an angle rate·h; the greatest degree where none does. */
function degreeFor(angle: number): number {
  let degree = 3;
  while (degree < greatestDegree && reach[degree]! < angle) degree++;
  return degree;
}

/** The longest step, as rate·h, that a series can make. */
export const longestAngle = reach[greatestDegree]!;

/**
 * The coefficients follow from the state equations by recurrence: each power of τ in x′ is made of the same power
 * in x. So the series is that of exp(A·τh), and what it leaves out is bounded by (rate·h)^n/n!.
 *
 * Allocates nothing after it was made. Rows are polynomials in τ, lowest power first, each a view into one array.
 */
export class StepSeries {
  /** Degree of the last expansion. */
  degree = 0;
  /** [s], what τ = 1 stands for. */
  duration: Second = 0;
  /** Of every state, in the order of `place`. */
  readonly states: readonly Float64Array[];
  /** Sum of the modes' voltages [V], the streamer's current [A], the current at the base of the secondary [A]. */
  readonly top = new Float64Array(greatestDegree + 1);
  readonly streamerCurrent = new Float64Array(greatestDegree + 1);
  readonly secondaryCurrent = new Float64Array(greatestDegree + 1);
  /** Voltage of the load with no current allowed, w = v_C + Σ(M/L)·(v − R·i) [V]. */
  readonly open = new Float64Array(greatestDegree + 1);

  readonly #count: number;
  readonly #perLeakage: number;
  readonly #primaryResistance: number;
  readonly #perTank: number;
  readonly #perBus: number;
  readonly #perStreamerResistance: number;
  readonly #perStreamerCapacitance: number;
  readonly #perInductance: Float64Array;
  readonly #perCapacitance: Float64Array;
  readonly #resistance: Float64Array;
  readonly #turnsRatio: Float64Array;
  readonly #baseRatio: Float64Array;
  readonly #pull: Float64Array;

  constructor(network: BurstNetwork) {
    const { modes, streamer } = network;
    this.#count = modes.length;
    this.states = Array.from({ length: stateSize(network) }, () => new Float64Array(greatestDegree + 1));
    this.#perLeakage = 1 / leakageInductance(network);
    this.#primaryResistance = network.primary.resistance;
    this.#perTank = 1 / network.primary.tankCapacitance;
    this.#perBus = 1 / network.bus.capacitorEach;
    this.#perStreamerResistance = streamer ? 1 / streamer.resistance : 0;
    this.#perStreamerCapacitance = streamer ? 1 / streamer.capacitance : 0;
    this.#perInductance = Float64Array.from(modes, ({ inductance }) => 1 / inductance);
    this.#perCapacitance = Float64Array.from(modes, ({ capacitance }) => 1 / capacitance);
    this.#resistance = Float64Array.from(modes, ({ resistance }) => resistance);
    this.#turnsRatio = Float64Array.from(modes, ({ mutual, inductance }) => mutual / inductance);
    this.#baseRatio = Float64Array.from(modes, ({ baseCurrentRatio = 1 }) => baseCurrentRatio);
    this.#pull = new Float64Array(modes.length);
  }

  /**
   * Expands about a state.
   * @param x         state at τ = 0
   * @param branch    way of the bridge throughout the step
   * @param sparking  whether the streamer is there
   * @param rate      bound of the circuit's rate [1/s], see `rateBound`
   * @param duration  [s], at most `longestAngle`/rate
   */
  expand({
    x,
    branch,
    sparking,
    rate,
    duration,
  }: {
    x: Float64Array;
    branch: Branch;
    sparking: boolean;
    rate: number;
    duration: Second;
  }): void {
    const states = this.states;
    const count = this.#count;
    const degree = degreeFor(rate * duration);
    this.degree = degree;
    this.duration = duration;
    for (let j = 0; j < states.length; j++) states[j]![0] = x[j]!;

    const current = states[place.current]!;
    const tank = states[place.tank]!;
    const busUpper = states[place.busUpper]!;
    const busLower = states[place.busLower]!;
    const streamer = states[place.streamer]!;
    const { top, streamerCurrent, secondaryCurrent, open } = this;
    const perInductance = this.#perInductance;
    const perCapacitance = this.#perCapacitance;
    const resistance = this.#resistance;
    const turnsRatio = this.#turnsRatio;
    const baseRatio = this.#baseRatio;
    const pull = this.#pull;
    const { upper, lower } = branch;
    const conducts = branch.sign !== 0;
    const loss = branch.resistance + this.#primaryResistance;
    const perLeakage = this.#perLeakage;
    const perTank = this.#perTank;
    const perBus = this.#perBus;
    const perStreamerResistance = sparking ? this.#perStreamerResistance : 0;
    const perStreamerCapacitance = this.#perStreamerCapacitance;
    let constant = branch.offset;

    for (let k = 0; k <= degree; k++) {
      let w = tank[k]!;
      let v = 0;
      let base = 0;
      for (let m = 0; m < count; m++) {
        const modeCurrent = states[place.modes + 2 * m]![k]!;
        const modeVoltage = states[place.modes + 2 * m + 1]![k]!;
        const rest = modeVoltage - resistance[m]! * modeCurrent;
        pull[m] = rest;
        w += turnsRatio[m]! * rest;
        v += modeVoltage;
        base += baseRatio[m]! * modeCurrent;
      }
      const spark = (v - streamer[k]!) * perStreamerResistance;
      top[k] = v;
      open[k] = w;
      secondaryCurrent[k] = base;
      streamerCurrent[k] = spark;
      if (k === degree) break;

      const f = duration / (k + 1);
      const i = current[k]!;
      const slope = conducts ? (constant + upper * busUpper[k]! + lower * busLower[k]! - loss * i - w) * perLeakage : 0;
      constant = 0;
      current[k + 1] = slope * f;
      tank[k + 1] = i * perTank * f;
      busUpper[k + 1] = -upper * i * perBus * f;
      busLower[k + 1] = -lower * i * perBus * f;
      streamer[k + 1] = spark * perStreamerCapacitance * f;
      for (let m = 0; m < count; m++) {
        const row = states[place.modes + 2 * m]!;
        states[place.modes + 2 * m + 1]![k + 1] = -(row[k]! + spark) * perCapacitance[m]! * f;
        row[k + 1] = (pull[m]! * perInductance[m]! - turnsRatio[m]! * slope) * f;
      }
    }
  }

  /** The state at τ, written into `x`. */
  stateAt(tau: number, x: Float64Array): void {
    const states = this.states;
    const degree = this.degree;
    for (let j = 0; j < states.length; j++) {
      const row = states[j]!;
      let sum = row[degree]!;
      for (let k = degree - 1; k >= 0; k--) sum = sum * tau + row[k]!;
      x[j] = sum;
    }
  }
}
