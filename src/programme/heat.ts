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
  /** 1 − e^(−h/τ) of each term for the on-time h that was asked about last: asking and running are mostly of the same one. */
  private readonly gone: Float64Array;
  private goneIn: Second = 0;
  private readonly limit: HeatLimit;

  constructor(limit: HeatLimit) {
    this.limit = limit;
    this.rises = new Float64Array(limit.terms.length);
    this.before = new Float64Array(limit.terms.length);
    this.gone = new Float64Array(limit.terms.length);
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
    const { before, resistance, gone } = this;
    this.lookUp(onTime);
    const power = energy / onTime;
    let sum = this.limit.ambient;
    for (let n = 0; n < before.length; n++) {
      sum += before[n]! + (power * resistance[n]! - before[n]!) * gone[n]!;
    }
    return sum;
  }

  private lookUp(onTime: Second): void {
    if (onTime === this.goneIn) return;
    const { gone, rate } = this;
    for (let n = 0; n < gone.length; n++) gone[n] = -Math.expm1(-onTime * rate[n]!);
    this.goneIn = onTime;
  }

  /** Runs the pulse that begins now; one of no length only cools. */
  run(onTime: Second, energy: Joule): void {
    const { before, rises, gone, resistance } = this;
    if (onTime === 0) {
      rises.set(before);
      return;
    }
    this.lookUp(onTime);
    const power = energy / onTime;
    let sum = this.limit.ambient;
    for (let n = 0; n < before.length; n++) {
      rises[n] = before[n]! + (power * resistance[n]! - before[n]!) * gone[n]!;
      sum += rises[n]!;
    }
    this.now += onTime;
    this.temperature = sum;
  }
}
