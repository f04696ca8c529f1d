/**
 * Records with a known truth, made apart from the product's own code: two coupled damped resonators driven by a square wave for the
 * on-time and shorted after it. The states move by exp(A·t) as a Taylor series, the poles are roots of the characteristic polynomial.
 */

/** A small generator of seeded chance: a counter of 32 bits in golden-ratio steps behind two rounds of mixing. */
export function chance(seed: number) {
  let state = Math.imul(seed, 0x27d4eb2f) >>> 0;
  const uniform = () => {
    state = (state + 0x9e3779b9) >>> 0;
    let x = state;
    x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return ((x ^ (x >>> 16)) >>> 0) / 2 ** 32;
  };
  const normal = () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const between = (low: number, high: number) => low + (high - low) * uniform();
  return { uniform, normal, between };
}
export type Chance = ReturnType<typeof chance>;

export interface Resonators {
  /** Uncoupled frequencies [Hz] and qualities. */
  readonly primaryFrequency: number;
  readonly secondaryFrequency: number;
  readonly primaryQ: number;
  readonly secondaryQ: number;
  readonly coupling: number;
}

/** States: primary current, primary capacitor voltage, secondary current, secondary voltage; inductances 1, voltages in rad/s. */
const order = 4;

/** Row-major [4 × 4], of x' = A·x + b·v. With L = 1 each: i1' + k·i2' = v − u1 − r1·i1, k·i1' + i2' = −u2 − r2·i2, u' = ω²·i. */
export function system(r: Resonators): { a: number[]; b: number[] } {
  const w1 = 2 * Math.PI * r.primaryFrequency;
  const w2 = 2 * Math.PI * r.secondaryFrequency;
  const [r1, r2] = [w1 / r.primaryQ, w2 / r.secondaryQ];
  const k = r.coupling;
  const d = 1 - k * k;
  return {
    a: [
      ...[-r1 / d, -1 / d, (k * r2) / d, k / d],
      ...[w1 * w1, 0, 0, 0],
      ...[(k * r1) / d, k / d, -r2 / d, -1 / d],
      ...[0, 0, w2 * w2, 0],
    ],
    b: [1 / d, 0, -k / d, 0],
  };
}

export interface Pole {
  /** Damped natural frequency [Hz] and amplitude decay rate [1/s]. */
  readonly frequency: number;
  readonly decay: number;
}

/** Poles of the shorted pair, lower first: Newton's method on the characteristic polynomial in the complex plane, from the lossless roots. */
export function polesOf(r: Resonators): readonly Pole[] {
  const w1 = 2 * Math.PI * r.primaryFrequency;
  const w2 = 2 * Math.PI * r.secondaryFrequency;
  const [r1, r2, k] = [w1 / r.primaryQ, w2 / r.secondaryQ, r.coupling];
  // (s² + r1·s + w1²)(s² + r2·s + w2²) − k²·s⁴
  const coefficients = [
    1 - k * k,
    r1 + r2,
    w1 * w1 + w2 * w2 + r1 * r2,
    r1 * w2 * w2 + r2 * w1 * w1,
    w1 * w1 * w2 * w2,
  ];
  const sum = w1 * w1 + w2 * w2;
  const root = Math.sqrt(sum * sum - 4 * (1 - k * k) * w1 * w1 * w2 * w2);
  const lossless = [Math.sqrt((sum - root) / (2 * (1 - k * k))), Math.sqrt((sum + root) / (2 * (1 - k * k)))];
  const starts = k === 0 ? [w1, w2].sort((a, b) => a - b) : lossless;
  return starts.map((w) => {
    let [re, im] = [-w / 200, w];
    for (let n = 0; n < 60; n++) {
      let [p, q, dp, dq] = [0, 0, 0, 0];
      for (const c of coefficients) {
        [dp, dq] = [dp * re - dq * im + p, dp * im + dq * re + q];
        [p, q] = [p * re - q * im + c, p * im + q * re];
      }
      const size = dp * dp + dq * dq;
      re -= (p * dp + q * dq) / size;
      im -= (q * dp - p * dq) / size;
    }
    return { frequency: im / (2 * Math.PI), decay: -re };
  });
}

/** The state `time` later under a constant drive, by the Taylor series of exp. */
export function advanced(
  x: readonly number[],
  { a, b }: { a: number[]; b: number[] },
  drive: number,
  time: number,
): number[] {
  const result = [...x];
  let term = [...x];
  for (let n = 1; n < 40; n++) {
    const next: number[] = [];
    for (let row = 0; row < order; row++) {
      let value = n === 1 ? (b[row] as number) * drive : 0;
      for (let c = 0; c < order; c++) value += (a[row * order + c] as number) * (term[c] as number);
      next.push((value * time) / n);
    }
    term = next;
    let greatest = 0;
    for (let row = 0; row < order; row++) {
      result[row] = (result[row] as number) + (term[row] as number);
      greatest = Math.max(
        greatest,
        Math.abs((term[row] as number) / ((Math.abs(result[row] as number) as number) + 1e-300)),
      );
    }
    if (greatest < 1e-17) break;
  }
  return result;
}

export interface Train {
  readonly resonators: Resonators;
  /** `feedback`: the square follows the sign of the primary current; a number: its frequency [Hz]. */
  readonly drive: "feedback" | number;
  readonly onTime: number;
  /** Starts of the bursts [s]. */
  readonly starts: readonly number[];
}

export interface Sampled {
  /** Time of the first sample, interval [s], and their number. */
  readonly start: number;
  readonly interval: number;
  readonly length: number;
}

export interface Signals {
  readonly primaryCurrent: Float64Array;
  /** What a pickup sees: the secondary's voltage. */
  readonly secondaryVoltage: Float64Array;
  readonly bridge: Float64Array;
  readonly gate: Float64Array;
  /** Instants at which the bridge changes, burst by burst, the start and the end left out. */
  readonly commutations: readonly (readonly number[])[];
}

/** Simulates the train on the grid of samples, from rest before the first start. Peak values are near 1. */
export function simulate(train: Train, { start, interval, length }: Sampled): Signals {
  const matrices = system(train.resonators);
  const current = new Float64Array(length);
  const voltage = new Float64Array(length);
  const bridge = new Float64Array(length);
  const gate = new Float64Array(length);
  const commutations: number[][] = [];
  const stepper = steadyStep(matrices, interval);
  let x = [0, 0, 0, 0];
  let now = Math.min(start, (train.starts[0] ?? start) - interval);
  let drive = 0;
  let burst = -1;
  let nextChange = train.starts[0] ?? Number.POSITIVE_INFINITY;
  let end = Number.POSITIVE_INFINITY;
  let changes = 0;
  let blanked = Number.NEGATIVE_INFINITY;
  const blanking = 0.25 / train.resonators.primaryFrequency;
  const w2 = 2 * Math.PI * train.resonators.secondaryFrequency;
  // Times are sums of rounded ones: a whole sample is one to 1e-9 of it.
  const step = (from: readonly number[], held: number, time: number) =>
    Math.abs(time - interval) < 1e-9 * interval ? stepper(from, held) : advanced(from, matrices, held, time);
  const go = (to: number) => {
    while (now < to) {
      if (burst >= 0 && train.drive === "feedback" && drive !== 0) {
        // Nothing changes within a quarter of a cycle after a change, so that what the last burst left does not turn the first half-cycle.
        if (now < blanked) {
          const stop = Math.min(to, end, blanked);
          if (stop > now) {
            x = advanced(x, matrices, drive, stop - now);
            now = stop;
          }
          if (now < blanked && now < end) continue;
        }
        // A change of the current's sign inside the step is found by bisection.
        const stop = Math.min(to, end);
        const ahead = step(x, drive, stop - now);
        if (Math.sign(ahead[0] as number) === -Math.sign(drive)) {
          let [low, high] = [0, stop - now];
          for (let n = 0; n < 50; n++) {
            const middle = (low + high) / 2;
            if (Math.sign(advanced(x, matrices, drive, middle)[0] as number) === -Math.sign(drive)) high = middle;
            else low = middle;
          }
          x = advanced(x, matrices, drive, high);
          now += high;
          drive = -drive;
          blanked = now + blanking;
          commutations[burst]?.push(now);
          continue;
        }
      }
      const stop = Math.min(to, nextChange, end);
      if (stop > now) {
        x = step(x, drive, stop - now);
        now = stop;
      }
      if (now >= end) {
        drive = 0;
        end = Number.POSITIVE_INFINITY;
        nextChange = train.starts[burst + 1] ?? Number.POSITIVE_INFINITY;
      } else if (now >= nextChange) {
        if (drive === 0) {
          burst++;
          commutations.push([]);
          drive = 1;
          blanked = now + blanking;
          changes = 0;
          end = now + train.onTime;
        } else {
          drive = -drive;
          commutations[burst]?.push(now);
        }
        changes++;
        nextChange =
          train.drive === "feedback"
            ? Number.POSITIVE_INFINITY
            : (train.starts[burst] as number) + changes / (2 * train.drive);
      }
    }
  };
  for (let i = 0; i < length; i++) {
    go(start + i * interval);
    current[i] = x[0] as number;
    voltage[i] = (x[3] as number) / w2;
    bridge[i] = drive;
    gate[i] = drive === 0 ? 0 : 1;
  }
  const unit = (values: Float64Array) => {
    const peak = values.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-300);
    return values.map((value) => value / peak);
  };
  return { primaryCurrent: unit(current), secondaryVoltage: unit(voltage), bridge, gate, commutations };
}

/** exp(A·h) and the response to a constant drive over one sample, kept. */
function steadyStep(matrices: { a: number[]; b: number[] }, interval: number) {
  const columns = [0, 1, 2, 3].map((c) =>
    advanced(
      [0, 1, 2, 3].map((r) => (r === c ? 1 : 0)),
      { a: matrices.a, b: [0, 0, 0, 0] },
      0,
      interval,
    ),
  );
  const forced = advanced([0, 0, 0, 0], matrices, 1, interval);
  return (x: readonly number[], drive: number): number[] =>
    [0, 1, 2, 3].map((r) =>
      columns.reduce((sum, column, c) => sum + (column[r] as number) * (x[c] as number), (forced[r] as number) * drive),
    );
}

export interface Instrument {
  readonly noise: number;
  /** Levels of the converter over ±`range`; none: exact. */
  readonly bits?: number;
  readonly range?: number;
  readonly offset?: number;
}

/** What an instrument shows of a signal with a peak of 1. */
export function seen(
  signal: Float64Array,
  { noise, bits, range = 1.2, offset = 0 }: Instrument,
  random: Chance,
): Float64Array {
  const step = bits === undefined ? 0 : (2 * range) / 2 ** bits;
  return signal.map((value) => {
    const noisy = value + offset + noise * random.normal();
    if (step === 0) return noisy;
    const level = Math.max(-(2 ** ((bits ?? 1) - 1)), Math.min(2 ** ((bits ?? 1) - 1) - 1, Math.round(noisy / step)));
    return level * step;
  });
}
