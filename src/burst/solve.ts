/** The march through one burst, from event to event of the switched linear circuit. */
import { type Branch, branchesOf, type Way, wayOf, ways } from "../circuit/branch.ts";
import type { BurstNetwork } from "../circuit/network.ts";
import { place } from "../circuit/state.ts";
import { rateBound } from "../circuit/state-matrix.ts";
import { firstDescent, greatestDegree } from "../numerics/bernstein.ts";
import type { Second } from "../units/si.ts";
import { Account } from "./account.ts";
import { Driver, type Pulse } from "./driver.ts";
import { longestAngle, StepSeries } from "./series.ts";
import { StepTrace } from "./trace.ts";

/**
 * How the simulation came to its end.
 * - `endTime`: it reached the time asked for.
 * - `eventLimit`, `stepLimit`: the guard on the number of events or steps stopped it; a circuit with a part far faster than the rest.
 * - `chatter`: comparator and bridge switch each other without time passing; nothing beyond that instant can be computed.
 * - `overflow`: a number grew beyond every circuit that can be built.
 */
export type Reached = "endTime" | "eventLimit" | "stepLimit" | "chatter" | "overflow";

export interface SolveLimits {
  readonly events: number;
  readonly steps: number;
  /** Longest step, as the product with the circuit's rate [rad]. */
  readonly stepAngle: number;
}

export const usualLimits: SolveLimits = { events: 100_000, steps: 400_000, stepAngle: 1.3 };

export interface Course {
  readonly reached: Reached;
  /** Time that was reached. */
  readonly at: Second;
  readonly events: number;
  readonly trace: StepTrace;
  readonly account: Account;
  readonly driver: Driver;
  readonly breakoutTime: Second | undefined;
  readonly start: Float64Array;
  readonly final: Float64Array;
  readonly rates: Rates;
}

/** Bounds of the circuit's rate [1/s] without and with the streamer. */
export interface Rates {
  readonly quiet: number;
  readonly sparking: number;
}

export function ratesOf(network: BurstNetwork): Rates {
  const branches = Object.values(branchesOf(network));
  const quiet = rateBound({ network, branches, sparking: false });
  return { quiet, sparking: network.streamer ? rateBound({ network, branches, sparking: true }) : quiet };
}

/** Below this share of the sum of its coefficients a starting value of a watched quantity is rounding. */
const noise = 1e-13;
/** Events that may fall on one instant before it is taken for chatter. */
const eventsAtOnce = 64;
/** Any state beyond this, in SI, ends the simulation. */
const overflow = 1e70;
/** Share of a usual step for which a current that starts and stops without end is held at nothing. */
const heldShare = 1e-6;

type Happening = "none" | "zero" | "startPositive" | "startNegative" | "comparator" | "breakout" | "limit";

/**
 * Marches from a state to the end of the pulse.
 * @param driven  false: a burst that a trip holds off; the gates stay off
 */
export function solve({
  network,
  pulse,
  initial,
  driven,
  limits,
}: {
  network: BurstNetwork;
  pulse: Pulse;
  initial: Float64Array;
  driven: boolean;
  limits: SolveLimits;
}): Course {
  const march = new March(network, pulse, initial, driven, limits);
  return march.run();
}

class March {
  readonly #network: BurstNetwork;
  readonly #pulse: Pulse;
  readonly #limits: SolveLimits;
  readonly #angle: number;
  readonly #branches: Readonly<Record<Way, Branch>>;
  readonly #rates: Rates;
  readonly #series: StepSeries;
  readonly #account: Account;
  readonly #trace: StepTrace;
  readonly #driver: Driver;
  readonly #start: Float64Array;
  /** State now, and the one before the step that led to it. */
  #x: Float64Array;
  #before: Float64Array;
  #time: Second = 0;
  #branch: Branch;
  #sparking = false;
  #breakoutTime: Second | undefined;
  #events = 0;
  #eventsNow = 0;
  readonly #watched = new Float64Array(greatestDegree + 1);
  /** First happening found in the step at hand. */
  #happening: Happening = "none";
  #tau = 1;

  constructor(network: BurstNetwork, pulse: Pulse, initial: Float64Array, driven: boolean, limits: SolveLimits) {
    this.#network = network;
    this.#pulse = pulse;
    this.#limits = limits;
    this.#angle = Math.min(limits.stepAngle, longestAngle);
    this.#branches = branchesOf(network);
    this.#rates = ratesOf(network);
    this.#series = new StepSeries(network);
    this.#account = new Account(network, this.#angle);
    this.#trace = new StepTrace(initial.length);
    this.#driver = new Driver(network, pulse, driven);
    this.#start = initial.slice();
    this.#x = initial.slice();
    this.#before = initial.slice();
    this.#branch = this.#branches.blocked;
  }

  run(): Course {
    this.#account.begin(this.#x);
    this.#driver.act(0, this.#x[place.current]!);
    this.#chooseBranch();
    let reached: Reached | undefined;
    while (reached === undefined) reached = this.#advance();
    return {
      reached,
      at: this.#time,
      events: this.#events,
      trace: this.#trace,
      account: this.#account,
      driver: this.#driver,
      breakoutTime: this.#breakoutTime,
      start: this.#start,
      final: this.#x,
      rates: this.#rates,
    };
  }

  /** One step, up to the next event or as far as the series reaches. */
  #advance(): Reached | undefined {
    const { endTime } = this.#pulse;
    if (this.#time >= endTime) return "endTime";
    if (this.#trace.count >= this.#limits.steps) return "stepLimit";
    if (this.#events >= this.#limits.events) return "eventLimit";

    const due = Math.min(this.#driver.next(), endTime);
    if (due <= this.#time) {
      this.#driver.act(this.#time, this.#x[place.current]!);
      return this.#count() ?? this.#chooseBranch();
    }
    const rate = this.#sparking ? this.#rates.sparking : this.#rates.quiet;
    const usual = this.#angle / rate;
    const left = due - this.#time;
    const full = left <= usual;
    const duration = full ? left : usual;
    // A step too short for the clock to move on: a part of the circuit is beyond all measure faster than the burst.
    if (this.#time + duration === this.#time) {
      if (!full) return "stepLimit";
      this.#time = due;
      return undefined;
    }
    this.#series.expand({ x: this.#x, branch: this.#branch, sparking: this.#sparking, rate, duration });
    this.#look();
    if (this.#tau > 0) {
      this.#move();
      if (!this.#finite()) return "overflow";
      this.#time = full && this.#tau === 1 ? due : this.#time + this.#tau * duration;
      this.#eventsNow = 0;
    }
    return this.#happening === "none" ? undefined : (this.#count() ?? this.#happen(usual));
  }

  /** Finds the first happening inside the step. */
  #look(): void {
    const { degree, states, open, top, secondaryCurrent, duration } = this.#series;
    const branch = this.#branch;
    const p = this.#watched;
    this.#tau = 1;
    this.#happening = "none";
    const current = states[place.current]!;

    if (branch.sign !== 0) {
      for (let k = 0; k <= degree; k++) p[k] = branch.sign * current[k]!;
      this.#found("zero", firstDescent(p, degree, noise));
      const limit = this.#network.overcurrent?.limit;
      if (limit !== undefined && !this.#driver.over && this.#driver.tripTime === undefined) {
        for (let k = 0; k <= degree; k++) p[k] = -branch.sign * current[k]!;
        p[0]! += limit;
        this.#found("limit", firstDescent(p, degree, noise));
      }
    } else {
      for (let k = 0; k <= degree; k++) p[k] = open[k]!;
      p[0]! -= this.#offer(1);
      this.#found("startPositive", firstDescent(p, degree, noise));
      for (let k = 0; k <= degree; k++) p[k] = -open[k]!;
      p[0]! += this.#offer(-1);
      this.#found("startNegative", firstDescent(p, degree, noise));
    }

    if (this.#driver.listens) {
      const { sense, threshold, lead, reversed } = this.#network.feedback;
      const sensed = sense === "secondaryCurrent" ? secondaryCurrent : current;
      const sign = (this.#driver.asked === "upper" ? 1 : -1) * (reversed ? -1 : 1);
      const ahead = (sign * lead) / duration;
      for (let k = 0; k < degree; k++) p[k] = sign * sensed[k]! + ahead * (k + 1) * sensed[k + 1]!;
      p[0]! += threshold;
      this.#found("comparator", firstDescent(p, degree - 1, noise));
    }

    const breakout = this.#network.streamer?.breakoutVoltage;
    if (breakout !== undefined && !this.#sparking) {
      for (const sign of [1, -1]) {
        for (let k = 0; k <= degree; k++) p[k] = -sign * top[k]!;
        p[0]! += breakout;
        this.#found("breakout", firstDescent(p, degree, noise));
      }
    }
  }

  #found(happening: Happening, tau: number): void {
    if (tau > 1 || (tau === this.#tau && this.#happening !== "none") || tau > this.#tau) return;
    this.#tau = tau;
    this.#happening = happening;
  }

  /** Takes the state to τ and books the way there. */
  #move(): void {
    const held = this.#before;
    this.#before = this.#x;
    this.#x = held;
    this.#series.stateAt(this.#tau, this.#x);
    if (this.#happening === "zero" || this.#branch.sign === 0) this.#x[place.current] = 0;
    const code = ways.indexOf(this.#branch.way) + (this.#sparking ? 8 : 0);
    this.#trace.add(this.#time, this.#tau * this.#series.duration, code, this.#before);
    this.#account.add({
      series: this.#series,
      branch: this.#branch,
      sparking: this.#sparking,
      start: this.#time,
      until: this.#tau,
      before: this.#before,
      after: this.#x,
    });
  }

  #happen(usual: Second): Reached | undefined {
    const current = this.#x[place.current]!;
    switch (this.#happening) {
      case "zero":
        this.#x[place.current] = 0;
        this.#branch = this.#branches.blocked;
        if (this.#eventsNow > eventsAtOnce / 2) this.#hold(usual);
        this.#chooseBranch();
        break;
      case "startPositive":
        this.#branch = this.#branches[wayOf(1, this.#driver)];
        break;
      case "startNegative":
        this.#branch = this.#branches[wayOf(-1, this.#driver)];
        break;
      case "comparator":
        this.#driver.ask(this.#time);
        break;
      case "limit":
        this.#driver.trip(this.#time, current, this.#network.overcurrent!.action);
        this.#chooseBranch();
        break;
      case "breakout":
        this.#sparking = true;
        this.#breakoutTime = this.#time;
        break;
      default:
        break;
    }
    return undefined;
  }

  /** A current that starts and stops at one instant: hold it at nothing for a moment, then look again. */
  #hold(usual: Second): void {
    const duration = Math.min(usual * heldShare, this.#pulse.endTime - this.#time);
    const rate = this.#sparking ? this.#rates.sparking : this.#rates.quiet;
    this.#series.expand({ x: this.#x, branch: this.#branch, sparking: this.#sparking, rate, duration });
    this.#tau = 1;
    this.#move();
    this.#time += duration;
    this.#eventsNow = 0;
  }

  /** Which way the current goes from here with the gates as they are. */
  #chooseBranch(): undefined {
    const current = this.#x[place.current]!;
    if (current !== 0) {
      this.#branch = this.#branches[wayOf(current > 0 ? 1 : -1, this.#driver)];
      return;
    }
    const open = this.#openVoltage();
    if (open < this.#offer(1)) this.#branch = this.#branches[wayOf(1, this.#driver)];
    else if (open > this.#offer(-1)) this.#branch = this.#branches[wayOf(-1, this.#driver)];
    else this.#branch = this.#branches.blocked;
  }

  /** What the branch for a current of this sign offers at zero current [V]. */
  #offer(sign: 1 | -1): number {
    const { upper, lower, offset } = this.#branches[wayOf(sign, this.#driver)];
    return offset + upper * this.#x[place.busUpper]! + lower * this.#x[place.busLower]!;
  }

  #openVoltage(): number {
    let w = this.#x[place.tank]!;
    this.#network.modes.forEach(({ mutual, inductance, resistance }, m) => {
      const at = place.modes + 2 * m;
      w += (mutual / inductance) * (this.#x[at + 1]! - resistance * this.#x[at]!);
    });
    return w;
  }

  #count(): Reached | undefined {
    this.#events++;
    this.#eventsNow++;
    return this.#eventsNow > eventsAtOnce ? "chatter" : undefined;
  }

  #finite(): boolean {
    for (const value of this.#x) if (!(Math.abs(value) < overflow)) return false;
    return true;
  }
}
