/** Waveforms of a burst, evaluated from its exact solution wherever they are asked for. */
import type { BurstNetwork } from "../circuit/network.ts";
import { place } from "../circuit/state.ts";
import { polynomialAt } from "../numerics/bernstein.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Second } from "../units/si.ts";
import { Replay } from "./replay.ts";
import type { Rates } from "./solve.ts";
import type { StepTrace } from "./trace.ts";

/** Arrays as long as the list of times. [s], [A], [V]. */
export interface WaveformSamples {
  readonly time: Float64Array;
  readonly primaryCurrent: Float64Array;
  readonly tankVoltage: Float64Array;
  readonly topVoltage: Float64Array;
  /** At the base of the winding. */
  readonly secondaryCurrent: Float64Array;
  readonly streamerCurrent: Float64Array;
  /** Across the load, from the bridge; the open-circuit voltage while the bridge is blocked. */
  readonly driveVoltage: Float64Array;
  /** Of each bus capacitor, without its resistance. */
  readonly busUpper: Float64Array;
  readonly busLower: Float64Array;
}

export class Waveforms {
  /** Time that was simulated, from 0. */
  readonly end: Second;
  readonly #trace: StepTrace;
  readonly #final: Float64Array;
  readonly #replay: Replay;

  constructor(parts: { network: BurstNetwork; trace: StepTrace; final: Float64Array; end: Second; rates: Rates }) {
    this.end = parts.end;
    this.#trace = parts.trace;
    this.#final = parts.final;
    this.#replay = new Replay(parts.network, parts.trace, parts.rates);
  }

  /** Starting times of all steps, with the end: enough points for a smooth drawing of about seven per cycle. */
  stepTimes(): Float64Array {
    const times = new Float64Array(this.#trace.count + 1);
    for (let step = 0; step < this.#trace.count; step++) times[step] = this.#trace.startOf(step);
    times[this.#trace.count] = this.end;
    return times;
  }

  /**
   * All waveforms at the given times, in any order.
   * @param times  [s] from the start of the enable window, within the simulated time
   * @returns exact to rounding; at an instant of switching, the drive voltage is the one just after
   * @throws OutOfDomain  a time outside the simulated time
   */
  sample(times: ArrayLike<number>): WaveformSamples {
    const count = times.length;
    const column = (): Float64Array => new Float64Array(count);
    const samples: WaveformSamples = {
      time: Float64Array.from(times),
      primaryCurrent: column(),
      tankVoltage: column(),
      topVoltage: column(),
      secondaryCurrent: column(),
      streamerCurrent: column(),
      driveVoltage: column(),
      busUpper: column(),
      busLower: column(),
    };
    const x = this.#final.slice();
    const trace = this.#trace;
    let expanded = -1;
    if (trace.count === 0) this.#replay.stand(this.#final);
    for (let n = 0; n < count; n++) {
      const time = samples.time[n]!;
      if (!(time >= 0 && time <= this.end))
        throw new OutOfDomain("Waveforms.sample", `times must lie within 0 and ${this.end} s, got ${time} s`);
      let tau = 0;
      if (trace.count > 0) {
        const step = trace.stepAt(time);
        if (step !== expanded) this.#replay.expand(step);
        expanded = step;
        const duration = trace.durationOf(step);
        tau = duration > 0 ? (time - trace.startOf(step)) / duration : 0;
      }
      this.#write(samples, n, tau, x);
    }
    return samples;
  }

  #write(samples: WaveformSamples, n: number, tau: number, x: Float64Array): void {
    const { series, branch, sparking } = this.#replay;
    const at = (row: Float64Array): number => polynomialAt(row, series.degree, tau);
    series.stateAt(tau, x);
    const current = x[place.current]!;
    const busUpper = x[place.busUpper]!;
    const busLower = x[place.busLower]!;
    samples.primaryCurrent[n] = current;
    samples.tankVoltage[n] = x[place.tank]!;
    samples.topVoltage[n] = at(series.top);
    samples.secondaryCurrent[n] = at(series.secondaryCurrent);
    samples.streamerCurrent[n] = sparking ? at(series.streamerCurrent) : 0;
    samples.busUpper[n] = busUpper;
    samples.busLower[n] = busLower;
    samples.driveVoltage[n] =
      branch.sign === 0
        ? at(series.open)
        : branch.offset + branch.upper * busUpper + branch.lower * busLower - branch.resistance * current;
  }
}
