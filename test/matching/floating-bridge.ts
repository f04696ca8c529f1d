/**
 * Bursts of a bridge that floats after the drive, made apart from the product's own code: the diodes carry the primary's current back to the
 * bus until it stops, then the secondary rings alone. Between its events the circuit is linear: the states move by exp(A·t).
 */
import { advanced, type Resonators, type Sampled, system } from "./two-resonators.ts";

export interface FloatingBridge {
  readonly resonators: Resonators;
  readonly onTime: number;
  /** Starts of the bursts [s]. */
  readonly starts: readonly number[];
  /** The bridge follows current + lead · its slope, this much later [s]. */
  readonly lead: number;
  readonly delay: number;
  /** Both switches are off for so long about a change: the output follows at once where the current drives it, else when the other is on [s]. */
  readonly dead: number;
  /** What switches and diodes drop, over half the bus. */
  readonly drop: number;
  /** The drive ends with the first commutation after the on-time in place of at once. */
  readonly synchronous: boolean;
}

export interface FloatingSignals {
  readonly primaryCurrent: Float64Array;
  readonly secondaryCurrent: Float64Array;
  readonly secondaryVoltage: Float64Array;
  /** In units of half the bus. */
  readonly bridge: Float64Array;
  readonly gate: Float64Array;
  /** Of each burst: start, commutations, end of the drive, and when the primary's current stopped for good. */
  readonly bursts: readonly {
    readonly start: number;
    readonly commutations: readonly number[];
    readonly end: number;
    readonly stopped: number;
  }[];
}

type State = readonly number[];
type Mode = "open" | "driven" | "returning";

/** Where a function of the state within a step passes zero: bisection. */
function timeOf(passed: (after: number) => boolean, step: number): number {
  let [low, high] = [0, step];
  for (let n = 0; n < 40; n++) {
    const middle = (low + high) / 2;
    if (passed(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Simulates the train on the grid of samples, from rest before the first start. Currents and voltages as `two-resonators.ts` has them. */
export function simulateFloating(train: FloatingBridge, { start, interval, length }: Sampled): FloatingSignals {
  const closed = system(train.resonators);
  const w2 = 2 * Math.PI * train.resonators.secondaryFrequency;
  const r2 = w2 / train.resonators.secondaryQ;
  const k = train.resonators.coupling;
  const open = { a: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, -r2, -1, 0, 0, w2 * w2, 0], b: [0, 0, 0, 0] };
  const [driven, resting] = [steadily(closed, interval), steadily(open, interval)];
  const blanking = 0.25 / train.resonators.primaryFrequency;
  const cycle = 1 / train.resonators.primaryFrequency;
  const slopeOf = (x: State, v: number) =>
    [0, 1, 2, 3].reduce((sum, c) => sum + closed.a[c]! * x[c]!, closed.b[0]! * v);
  /** Voltage of the bridge's output where no current flows. */
  const floating = (x: State) => x[1]! + k * (-x[3]! - r2 * x[2]!);

  const signals = {
    primaryCurrent: new Float64Array(length),
    secondaryCurrent: new Float64Array(length),
    secondaryVoltage: new Float64Array(length),
    bridge: new Float64Array(length),
    gate: new Float64Array(length),
  };
  const bursts: { start: number; commutations: number[]; end: number; stopped: number }[] = [];
  let x: State = [0, 0, 0, 0];
  let now = Math.min(start, train.starts[0]! - interval);
  let [mode, v]: [Mode, number] = ["open", 0];
  const limit = 1 + train.drop;
  let waits = false;
  let [next, change, ends, blanked] = [0, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, now];

  const step = (from: State, time: number): State => {
    const whole = Math.abs(time - interval) < 1e-9 * interval;
    if (mode === "open") return whole ? resting(from, 0) : advanced(from, open, 0, time);
    return whole ? driven(from, v) : advanced(from, closed, v, time);
  };
  const stopDrive = () => {
    bursts.at(-1)!.end = now;
    [change, ends] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
    waits = false;
    [mode, v] = ["returning", -Math.sign(x[0]!) * (1 + train.drop)];
  };
  const due = () => {
    if (now >= ends && (!train.synchronous || (now >= change && !waits))) stopDrive();
    if (now >= change && train.dead > 0 && !waits && x[0]! * v < 0) {
      waits = true;
      change = now + train.dead;
    }
    if (now >= change) {
      v = -v;
      waits = false;
      bursts.at(-1)!.commutations.push(now);
      [change, blanked] = [Number.POSITIVE_INFINITY, now + blanking];
    }
    if (next < train.starts.length && now >= train.starts[next]!) {
      bursts.push({ start: now, commutations: [], end: Number.NaN, stopped: Number.NaN });
      [mode, v, blanked, ends] = ["driven", 1 - train.drop, now + blanking, now + train.onTime];
      next++;
    }
  };
  /** Something that happens within the step to `stop`: its time, and what then changes. */
  const event = (stop: number): { after: number; act: () => void } | undefined => {
    const ahead = step(x, stop - now);
    if (mode === "driven" && change === Number.POSITIVE_INFINITY && stop > blanked) {
      const against = (y: State) => (y[0]! + train.lead * slopeOf(y, v)) * v < 0;
      const from = Math.max(0, blanked - now);
      if (against(ahead)) {
        const after = Math.max(from, against(x) ? from : timeOf((t) => against(step(x, t)), stop - now));
        return { after, act: () => (change = now + train.delay) };
      }
    }
    if (mode === "returning" && ahead[0]! * v > 0)
      return {
        after: timeOf((t) => step(x, t)[0]! * v > 0, stop - now),
        act: () => {
          x = [0, ...x.slice(1)];
          const e = floating(x);
          [mode, v] = Math.abs(e) > limit ? ["returning", Math.sign(e) * limit] : ["open", 0];
          bursts.at(-1)!.stopped = now;
        },
      };
    if (mode === "open" && bursts.length > 0 && Math.abs(floating(ahead)) > limit)
      return {
        after: timeOf((t) => Math.abs(floating(step(x, t))) > limit, stop - now),
        act: () => ([mode, v] = ["returning", Math.sign(floating(x)) * limit]),
      };
    return undefined;
  };
  const isDriven = () => mode === "driven";
  const go = (to: number) => {
    while (now < to) {
      const pending = [to, change, train.synchronous ? to : ends, train.starts[next] ?? to, now + cycle / 8];
      const stop = Math.min(...pending.filter((at) => at > now));
      const happens = event(stop);
      const until = happens === undefined ? stop : Math.min(stop, now + happens.after);
      if (until > now) x = step(x, until - now);
      now = until;
      happens?.act();
      due();
    }
  };
  for (let i = 0; i < length; i++) {
    go(start + i * interval);
    signals.primaryCurrent[i] = x[0]!;
    signals.secondaryCurrent[i] = x[2]!;
    signals.secondaryVoltage[i] = x[3]!;
    signals.bridge[i] = v === 0 ? floating(x) : v;
    signals.gate[i] = isDriven() ? 1 : 0;
  }
  return { ...signals, bursts };
}

/** exp(A·h) and the answer to a constant drive over one step, kept. */
function steadily(matrices: { a: number[]; b: number[] }, interval: number) {
  const none = { a: matrices.a, b: [0, 0, 0, 0] };
  const columns = [0, 1, 2, 3].map((c) =>
    advanced(
      [0, 1, 2, 3].map((r) => (r === c ? 1 : 0)),
      none,
      0,
      interval,
    ),
  );
  const forced = advanced([0, 0, 0, 0], matrices, 1, interval);
  return (x: State, v: number): State =>
    [0, 1, 2, 3].map((r) => columns.reduce((sum, column, c) => sum + column[r]! * x[c]!, forced[r]! * v));
}
