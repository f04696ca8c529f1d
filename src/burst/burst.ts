/** One burst of the coil's circuit. */
import { branchesOf } from "../circuit/branch.ts";
import { type BurstNetwork, requireNetwork } from "../circuit/network.ts";
import { type CircuitState, place, stateAtRest, stateOfVector, storedEnergy, vectorOfState } from "../circuit/state.ts";
import { signChanges } from "../numerics/bernstein.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Hertz, Second } from "../units/si.ts";
import type { Lobe } from "./account.ts";
import type { Pulse } from "./driver.ts";
import { envelopeOf, firstMaximum, firstMinimumAfter, ringdownOf } from "./envelope.ts";
import { Replay } from "./replay.ts";
import type { BurstLedger, BurstRemark, BurstResult } from "./result.ts";
import { type Course, type SolveLimits, solve, usualLimits } from "./solve.ts";
import { Waveforms } from "./waveforms.ts";

export interface BurstOptions extends Pulse {
  /** Where the circuit starts. Default: at rest, the bus at its voltage. */
  readonly initial?: CircuitState;
  /** Keep what `waveforms` needs, about 10 numbers a step. Default true. */
  readonly waveforms?: boolean;
  /** The gates stay off: a burst that an earlier trip holds off. Default false. */
  readonly heldOff?: boolean;
  /** Guards and the longest step; the defaults suit every coil that can be built. */
  readonly limits?: Partial<SolveLimits>;
}

/** Share of its peak below which the primary current counts as quiet. */
const quietShare = 0.02;

/**
 * Simulates one burst exactly: between two events the circuit is linear and its solution exp(A·t) is summed as a series to
 * rounding; every event (current reaching zero, comparator, gate, breakout, trip) is a root of that series, isolated so that none
 * is missed; energies are integrals of squares of that series.
 *
 * The circuit, the switching rule and the figures are defined in docs/model.md.
 *
 * @param network  SI, see `BurstNetwork`
 * @param options  enable window, end and start of the burst
 * @returns figures, all finite; `reached` says whether the simulation came to `endTime`, and why not
 * @throws OutOfDomain  a circuit that has no solution (see `requireNetwork`), an end time that is not positive, a negative on-time
 * @validity  ideal switches with constant drop and resistance, linear and constant R, L, C, M; a streamer that does not grow
 * @source    Kirchhoff's laws; the events and the series are this project's own
 */
export function simulateBurst(network: BurstNetwork, options: BurstOptions): BurstResult {
  requireNetwork(network);
  requirePulse(options);
  const initial = vectorOfState(options.initial ?? stateAtRest(network));
  if (initial.length !== place.modes + 2 * network.modes.length || initial.some((value) => !Number.isFinite(value)))
    throw new OutOfDomain("simulateBurst", "the initial state must be finite and have the network's modes");
  const limits = { ...usualLimits, ...options.limits };
  if (!(limits.stepAngle > 0)) throw new OutOfDomain("simulateBurst", "the longest step must be positive");
  const course = solve({ network, pulse: options, initial, driven: options.heldOff !== true, limits });
  return resultOf(network, options, course);
}

function requirePulse({ onTime, endTime }: Pulse): void {
  if (!(onTime >= 0)) throw new OutOfDomain("simulateBurst", `the on-time must not be negative, got ${onTime} s`);
  if (!(endTime > 0 && endTime < Number.POSITIVE_INFINITY))
    throw new OutOfDomain("simulateBurst", `the end time must be positive and finite, got ${endTime} s`);
}

function resultOf(network: BurstNetwork, options: BurstOptions, course: Course): BurstResult {
  const { account, driver, trace, final, start, at } = course;
  const lobes = allLobes(account.primary.done, account.primary.open, at);
  const topLobes = allLobes(account.top.done, account.top.open, at);
  const peak = greatestOf(lobes);
  const topPeak = greatestOf(topLobes);
  const period = secondaryPeriod(network);
  const offTime = driver.offTime;
  const envelope = envelopeOf({ lobes, period, greatest: peak.peak, until: offTime ?? at });
  const maximum = firstMaximum(envelope);
  const quiet = quietTime(network, course, peak.peak);
  const ringdown =
    offTime === undefined
      ? undefined
      : ringdownOf({ lobes: account.top.done.filter(({ from }) => from >= offTime), after: (quiet ?? 0) + period });
  const commutations = driver.commutations;
  const busVoltageAtEnd = final[place.busUpper]! + final[place.busLower]!;
  const switched = switchedCurrents(course);
  const square = account.switchSquare + account.diodeSquare;

  return {
    reached: course.reached,
    at,
    events: course.events,
    steps: trace.count,
    remarks: remarksOf(course, options),
    peakPrimaryCurrent: peak.peak,
    peakPrimaryCurrentTime: peak.time,
    peakTankVoltage: account.peakTankVoltage,
    peakTankVoltageTime: account.peakTankVoltageTime,
    peakTopVoltage: topPeak.peak,
    peakTopVoltageTime: topPeak.time,
    rmsPrimaryCurrent: at > 0 ? Math.sqrt(square / at) : 0,
    primaryCurrentSquare: square,
    switchCharge: account.switchCharge,
    switchCurrentSquare: account.switchSquare,
    diodeCharge: account.diodeCharge,
    diodeCurrentSquare: account.diodeSquare,
    commutations,
    halfCycles: commutations.length + 1,
    meanFrequency: meanFrequencyOf(commutations),
    gateChanges: driver.changes,
    largestSwitchedOffCurrent: switched.off,
    largestTakenOverCurrent: switched.over,
    largestCommutationCurrent: Math.max(switched.off, switched.over),
    gatesOffTime: offTime,
    currentAtGatesOff: driver.offCurrent,
    tripTime: driver.tripTime,
    envelope,
    firstEnvelopeMaximum: maximum?.point,
    notch: maximum && firstMinimumAfter(envelope, maximum.index),
    energyDrawn: account.drawn,
    energyReturned: account.returned,
    energyNet: account.drawn - account.returned,
    ledger: ledgerOf(network, course),
    busVoltageAtEnd,
    busSag: start[place.busUpper]! + start[place.busLower]! - busVoltageAtEnd,
    tankVoltageAtEnd: final[place.tank]!,
    breakoutTime: course.breakoutTime,
    primaryQuietTime: quiet,
    ringdownDecayTime: ringdown?.decayTime,
    ringdownFrequency: ringdown?.frequency,
    finalState: stateOfVector(final),
    waveforms:
      options.waveforms === false
        ? undefined
        : new Waveforms({ network, trace: trace.trimmed(), final, end: at, rates: course.rates }),
  };
}

function ledgerOf(network: BurstNetwork, { account, start, final }: Course): BurstLedger {
  const { switchCharge, switchSquare, diodeCharge, diodeSquare } = account;
  const throughSwitch = branchesOf(network).upperSwitch;
  const throughDiode = branchesOf(network).upperDiode;
  const ledger = {
    switches: throughSwitch.drop * switchCharge + throughSwitch.slope * switchSquare,
    diodes: throughDiode.drop * diodeCharge + throughDiode.slope * diodeSquare,
    busEsr: throughSwitch.busResistance * (switchSquare + diodeSquare),
    primary: network.primary.resistance * (switchSquare + diodeSquare),
    secondary: network.modes.reduce((sum, { resistance }, m) => sum + resistance * account.modeSquares[m]!, 0),
    streamer: (network.streamer?.resistance ?? 0) * account.streamerSquare,
    storedAtStart: storedEnergy(network, start),
    storedAtEnd: storedEnergy(network, final),
  };
  const { switches, diodes, busEsr, primary, secondary, streamer, storedAtStart, storedAtEnd } = ledger;
  const spent = switches + diodes + busEsr + primary + secondary + streamer;
  const left = account.drawn - account.returned + storedAtStart - spent - storedAtEnd;
  const turned = account.drawn + storedAtStart;
  return { ...ledger, closure: turned > 0 ? left / turned : 0 };
}

function remarksOf({ driver, final, reached }: Course, options: BurstOptions): BurstRemark[] {
  const remarks: BurstRemark[] = [];
  if (options.heldOff) remarks.push("heldOff");
  else if (driver.commutations.length === 0) remarks.push("neverCommutated");
  if (!driver.over && reached === "endTime") remarks.push("gatesStillDriven");
  if (driver.tripTime !== undefined) remarks.push("tripped");
  if (final[place.busUpper]! < 0 || final[place.busLower]! < 0) remarks.push("busReversed");
  return remarks;
}

function meanFrequencyOf(commutations: readonly Second[]): Hertz | undefined {
  const count = commutations.length;
  if (count < 3) return undefined;
  const span = commutations[count - 1]! - commutations[0]!;
  return span > 0 ? (count - 1) / (2 * span) : undefined;
}

/** Currents that switches let go, or took from a diode, at every change of the gates but the last. */
function switchedCurrents({ driver }: Course): { off: Ampere; over: Ampere } {
  let off = 0;
  let over = 0;
  let before = { upper: true, lower: false };
  for (const change of driver.changes) {
    const { time, current, upper, lower } = change;
    if (driver.over && time === driver.offTime) break;
    const size = Math.abs(current);
    if ((before.upper && !upper && current > 0) || (before.lower && !lower && current < 0)) off = Math.max(off, size);
    if ((upper && !before.upper && current > 0) || (lower && !before.lower && current < 0)) over = Math.max(over, size);
    before = { upper, lower };
  }
  return { off, over };
}

function allLobes(done: readonly Lobe[], open: Lobe | undefined, end: Second): readonly Lobe[] {
  return open ? [...done, { ...open, to: end }] : done;
}

function greatestOf(lobes: readonly Lobe[]): { peak: number; time: Second } {
  let greatest = { peak: 0, time: 0 };
  for (const { peak, time } of lobes) if (peak > greatest.peak) greatest = { peak, time };
  return greatest;
}

/** Period of the first mode by itself, or of the tank where there is no secondary. */
function secondaryPeriod({ modes, primary }: BurstNetwork): Second {
  const mode = modes[0];
  const square = mode ? mode.inductance * mode.capacitance : primary.inductance * primary.tankCapacitance;
  return 2 * Math.PI * Math.sqrt(square);
}

/** Last moment at which the primary current exceeds its share of the peak: looked for from the last step backwards. */
function quietTime(network: BurstNetwork, course: Course, peak: Ampere): Second | undefined {
  const { trace, rates, at, final } = course;
  if (!(peak > 0)) return undefined;
  const level = quietShare * peak;
  if (Math.abs(final[place.current]!) > level) return at;
  const replay = new Replay(network, trace, rates);
  const roots = new Float64Array(64);
  for (let step = trace.count - 1; step >= 0; step--) {
    replay.expand(step);
    if (replay.branch.sign === 0) continue;
    const { series, branch } = replay;
    const above = series.states[place.current]!.slice(0, series.degree + 1);
    for (let k = 0; k <= series.degree; k++) above[k]! *= branch.sign;
    above[0]! -= level;
    const count = signChanges(above, series.degree, roots);
    if (count > 0) return trace.startOf(step) + roots[count - 1]! * series.duration;
    if (above[0]! > 0) return trace.startOf(step) + series.duration;
  }
  return undefined;
}
