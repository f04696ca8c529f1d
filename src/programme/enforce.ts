/** The hard limits, pulse after pulse: what is sent, and what each pulse leaves behind. */
import type { Farad, Joule, Kelvin, Second, Volt } from "../units/si.ts";
import { type CostTable, costAt, longestThat, type PulseCosts } from "./costs.ts";
import { evenOut } from "./evening.ts";
import { Warming } from "./heat.ts";
import { dutyWindows, type ProgrammeLimits, powerWindow, rateWindows, startsIn, timeTolerance } from "./limits.ts";
import { type Reason, reasons } from "./schedule.ts";

/** The bus between two refills by the mains. */
export interface BusStore {
  /** Before a pulse, with nothing drawn [V]. */
  readonly voltage: Volt;
  /** Of the whole bus [F]. */
  readonly capacitance: Farad;
  /** Longest time without a refill: half a period of the mains behind a bridge, a whole one behind a doubler. */
  readonly refill: Second;
}

export interface Load {
  readonly costs: PulseCosts;
  readonly bus: BusStore;
}

/** One entry per pulse sent, in order of time. */
export interface Course {
  /** Index of the pulse. */
  readonly pulse: Int32Array;
  readonly start: Float64Array;
  readonly onTime: Float64Array;
  /** [J] from the bus. Zeros without a load. */
  readonly drawn: Float64Array;
  /** [J] in one switch. */
  readonly loss: Float64Array;
  /** [V] when it begins. */
  readonly bus: Float64Array;
  /** [K] when it ends; empty where there is no such limit. */
  readonly junction: Float64Array;
  readonly capacitor: Float64Array;
}

const code = (reason: Reason): number => reasons.indexOf(reason);
const codes = {
  rate: code("rate"),
  duty: code("duty"),
  power: code("power"),
  bus: code("bus"),
  junction: code("junction"),
  capacitor: code("capacitor"),
};

/**
 * Runs pulses that already keep on-time and gap through the other limits, in order of time.
 *
 * Duty and power are first evened out over their windows; then every pulse is held to every limit for itself: shortened as far as `least`, else
 * left out. What a pulse draws is what the burst solver says for its on-time and the bus that the pulses before it have left.
 *
 * @param start, planned  of every pulse, in order; `planned` 0 is left out already. `planned` and `reason` are changed to what was sent
 * @param least           [s] a pulse is not made shorter than this, nor than itself
 */
export function enforce(
  { start, planned, reason }: { start: Float64Array; planned: Float64Array; reason: Uint8Array },
  { limits, load, least }: { limits: ProgrammeLimits; load: Load | undefined; least: Second },
): Course {
  const pulse = sentOf(planned);
  const starts = pulse.length === planned.length ? start : pick(start, pulse);
  const { wish, why } = evened({ starts, onTimes: pick(planned, pulse) }, limits, load);
  const count = pulse.length;
  const sent = {
    count: 0,
    pulse: new Int32Array(count),
    start: new Float64Array(count),
    onTime: new Float64Array(count),
    drawn: new Float64Array(count),
    loss: new Float64Array(count),
    bus: new Float64Array(count),
    junction: new Float64Array(limits.junction && load ? count : 0),
    capacitor: new Float64Array(limits.capacitor && load ? count : 0),
  };
  const rates = rateWindows.map((window) => ({ window: window - timeTolerance, most: startsIn(window, limits.rate) }));
  const duties = dutyWindows.map((window) => new OnTimeWindow(sent, window, limits.duty * window));
  const energy = load ? energyLimits(sent, limits, load) : undefined;

  for (let n = 0; n < count; n++) {
    const at = pulse[n]!;
    const time = starts[n]!;
    const wanted = planned[at]!;
    const floor = Math.min(least, wanted);
    let onTime = wish[n]!;
    let because = why[n]!;
    for (const { window, most } of rates) {
      if (sent.count >= most && (most === 0 || sent.start[sent.count - most]! > time - window)) {
        onTime = 0;
        because = codes.rate;
      }
    }
    if (onTime > 0) {
      for (const window of duties) {
        const allowed = window.longest(time, onTime);
        if (allowed < onTime) [onTime, because] = [allowed, codes.duty];
      }
    }
    if (energy) {
      energy.moveTo(time);
      if (onTime >= floor) {
        for (const limit of energy.all) {
          const allowed = longestThat(limit.holds, onTime);
          if (allowed < onTime) [onTime, because] = [allowed, limit.code];
          if (allowed < floor) break;
        }
      }
    }
    if (!(onTime >= floor && onTime > 0)) onTime = 0;
    if (because !== 0 && onTime < wanted) reason[at] = because;
    planned[at] = onTime;
    if (onTime === 0) {
      energy?.skip();
      continue;
    }
    const to = sent.count;
    sent.pulse[to] = at;
    sent.start[to] = time;
    sent.onTime[to] = onTime;
    energy?.send(onTime);
    sent.count++;
    for (const window of duties) window.add(onTime);
  }
  const cut = <T extends Float64Array | Int32Array>(whole: T): T => whole.subarray(0, sent.count) as T;
  return {
    pulse: cut(sent.pulse),
    start: cut(sent.start),
    onTime: cut(sent.onTime),
    drawn: cut(sent.drawn),
    loss: cut(sent.loss),
    bus: cut(sent.bus),
    junction: cut(sent.junction),
    capacitor: cut(sent.capacitor),
  };
}

type Sent = { count: number } & {
  -readonly [K in keyof Course]: Course[K];
};

function sentOf(planned: Float64Array): Int32Array {
  let count = 0;
  for (const onTime of planned) if (onTime > 0) count++;
  const found = new Int32Array(count);
  let to = 0;
  planned.forEach((onTime, at) => {
    if (onTime > 0) found[to++] = at;
  });
  return found;
}

function pick(values: Float64Array, at: Int32Array): Float64Array {
  const picked = new Float64Array(at.length);
  for (let n = 0; n < at.length; n++) picked[n] = values[at[n]!]!;
  return picked;
}

/** On-times after duty and power have been spread over their windows. */
function evened(
  { starts, onTimes }: { starts: Float64Array; onTimes: Float64Array },
  limits: ProgrammeLimits,
  load: Load | undefined,
): { wish: Float64Array; why: Uint8Array } {
  const shares = new Float64Array(onTimes.length).fill(1);
  for (const window of dutyWindows) {
    evenOut({ start: starts, weight: onTimes, length: onTimes, window, most: limits.duty * window, shares });
  }
  const wish = onTimes.map((onTime, n) => onTime * shares[n]!);
  const why = new Uint8Array(onTimes.length);
  for (let n = 0; n < shares.length; n++) if (shares[n]! < 1) why[n] = codes.duty;
  if (limits.power === undefined || load === undefined) return { wish, why };
  const { drawn } = load.costs;
  const energies = wish.map((onTime) => costAt(drawn, onTime, 1));
  const parts = new Float64Array(onTimes.length).fill(1);
  const most = limits.power * powerWindow;
  evenOut({ start: starts, weight: energies, length: undefined, window: powerWindow, most, shares: parts });
  for (let n = 0; n < parts.length; n++) {
    if (parts[n]! === 1) continue;
    const energy = parts[n]! * energies[n]!;
    wish[n] = longestThat((onTime) => costAt(drawn, onTime, 1) <= energy, wish[n]!);
    why[n] = codes.power;
  }
  return { wish, why };
}

/** On-time in the window that ends with the pulse asked about. */
class OnTimeWindow {
  private first = 0;
  private sum: Second = 0;
  private readonly sent: Sent;
  private readonly window: Second;
  private readonly most: Second;

  constructor(sent: Sent, window: Second, most: Second) {
    this.sent = sent;
    this.window = window;
    this.most = most;
  }

  /** The longest on-time up to `onTime` that the window still holds. */
  longest(time: Second, onTime: Second): Second {
    const { sent, window, most } = this;
    // Pulses over before even the shortest pulse's window begins count no more.
    while (this.first < sent.count && sent.start[this.first]! + sent.onTime[this.first]! <= time - window)
      this.sum -= sent.onTime[this.first++]!;
    if (onTime + this.inside(time + onTime - window) <= most) return onTime;
    // With the window's start at the pulse's the sum is the greatest: whatever fits then fits.
    return Math.min(onTime, most - this.inside(time - window));
  }

  /** On-time of the pulses sent after a time. */
  private inside(from: Second): Second {
    const { sent } = this;
    let { sum } = this;
    for (let n = this.first; n < sent.count && sent.start[n]! < from; n++)
      sum -= Math.min(sent.onTime[n]!, from - sent.start[n]!);
    return sum;
  }

  add(onTime: Second): void {
    this.sum += onTime;
  }
}

/** The limits that stand on the energy of pulses. */
function energyLimits(sent: Sent, limits: ProgrammeLimits, { costs, bus }: Load) {
  const junction = limits.junction && new Warming(limits.junction);
  const capacitor = limits.capacitor && new Warming(limits.capacitor);
  const full: Joule = 0.5 * bus.capacitance * bus.voltage ** 2;
  const lowest: Joule = 0.5 * bus.capacitance * (limits.bus ?? 0) ** 2;
  const refilled = new EnergyWindow(sent, bus.refill);
  const second = new EnergyWindow(sent, powerWindow - timeTolerance);
  let ratio = 1;
  const cost = (table: CostTable, onTime: Second): Joule => (onTime > 0 ? costAt(table, onTime, ratio) : 0);
  const holdsHeat = (part: Warming, table: CostTable, most: Kelvin) => (onTime: Second) =>
    onTime === 0 || part.after(onTime, cost(table, onTime)) <= most;
  const all = [
    ...(limits.power === undefined
      ? []
      : [
          {
            code: codes.power,
            holds: (onTime: Second) => second.sum + cost(costs.drawn, onTime) <= limits.power! * powerWindow,
          },
        ]),
    {
      code: codes.bus,
      holds: (onTime: Second) => full - refilled.sum - cost(costs.drawn, onTime) >= lowest,
    },
    ...(junction
      ? [{ code: codes.junction, holds: holdsHeat(junction, costs.switchLoss, limits.junction!.most) }]
      : []),
    ...(capacitor
      ? [{ code: codes.capacitor, holds: holdsHeat(capacitor, costs.bankLoss, limits.capacitor!.most) }]
      : []),
  ];
  return {
    all,
    moveTo(time: Second): void {
      refilled.moveTo(time);
      second.moveTo(time);
      junction?.coolTo(time);
      capacitor?.coolTo(time);
      ratio = full > 0 ? Math.sqrt(Math.max(0, 1 - refilled.sum / full)) : 0;
    },
    skip(): void {
      junction?.run(0, 0);
      capacitor?.run(0, 0);
    },
    send(onTime: Second): void {
      const to = sent.count;
      const drawn = cost(costs.drawn, onTime);
      const loss = cost(costs.switchLoss, onTime);
      sent.drawn[to] = drawn;
      sent.loss[to] = loss;
      sent.bus[to] = ratio * bus.voltage;
      refilled.add(drawn);
      second.add(drawn);
      if (junction) {
        junction.run(onTime, loss);
        sent.junction[to] = junction.temperature;
      }
      if (capacitor) {
        capacitor.run(onTime, cost(costs.bankLoss, onTime));
        sent.capacitor[to] = capacitor.temperature;
      }
    },
  };
}

/** Energy of the pulses that began in the window before a time. */
class EnergyWindow {
  sum: Joule = 0;
  private first = 0;
  private readonly sent: Sent;
  private readonly window: Second;

  constructor(sent: Sent, window: Second) {
    this.sent = sent;
    this.window = window;
  }

  moveTo(time: Second): void {
    while (this.first < this.sent.count && this.sent.start[this.first]! <= time - this.window)
      this.sum -= this.sent.drawn[this.first++]!;
    // What rounding leaves of an empty window is nothing.
    if (this.first === this.sent.count) this.sum = 0;
  }

  add(energy: Joule): void {
    this.sum += energy;
  }
}
