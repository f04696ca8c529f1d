/** Temperature of a part from pulse to pulse. */
import type { Joule, Kelvin, Second } from "../units/si.ts";
import type { HeatLimit } from "./limits.ts";

/**
 * A part that warms through parallel Foster terms, advanced exactly from the end of one pulse to the end of the next: each term falls by
 * e^(−h/τ), and a pulse of energy E over the time h adds E/h·r·(1 − e^(−h/τ)).
 * @source foster-network
 */
export class Warming {
  /** At the end of the last pulse [K]. */
  temperature: Kelvin;
  private readonly rises: Float64Array;
  private readonly before: Float64Array;
  private readonly resistance: Float64Array;
  private readonly rate: Float64Array;
  private now: Second = 0;
  private readonly limit: HeatLimit;

  constructor(limit: HeatLimit) {
    this.limit = limit;
    this.rises = new Float64Array(limit.terms.length);
    this.before = new Float64Array(limit.terms.length);
    this.resistance = Float64Array.from(limit.terms, ([resistance]) => resistance);
    this.rate = Float64Array.from(limit.terms, ([, timeConstant]) => 1 / timeConstant);
    this.temperature = limit.ambient;
  }

  /** Cools until a pulse begins. @returns [K] there */
  coolTo(time: Second): Kelvin {
    const { before, rises, rate } = this;
    let sum = this.limit.ambient;
    for (let n = 0; n < rises.length; n++) {
      before[n] = rises[n]! * Math.exp((this.now - time) * rate[n]!);
      sum += before[n]!;
    }
    this.now = time;
    return sum;
  }

  /** What the part would be at at the end of a pulse that begins now [K]. */
  after(onTime: Second, energy: Joule): Kelvin {
    const { before, rate, resistance } = this;
    const power = energy / onTime;
    let sum = this.limit.ambient;
    for (let n = 0; n < before.length; n++) {
      const gone = -Math.expm1(-onTime * rate[n]!);
      sum += before[n]! * (1 - gone) + power * resistance[n]! * gone;
    }
    return sum;
  }

  /** Runs the pulse that begins now; one of no length only cools. */
  run(onTime: Second, energy: Joule): void {
    const { before, rises, rate, resistance } = this;
    if (onTime === 0) {
      rises.set(before);
      return;
    }
    const power = energy / onTime;
    let sum = this.limit.ambient;
    for (let n = 0; n < before.length; n++) {
      const gone = -Math.expm1(-onTime * rate[n]!);
      rises[n] = before[n]! * (1 - gone) + power * resistance[n]! * gone;
      sum += rises[n]!;
    }
    this.now += onTime;
    this.temperature = sum;
  }
}
