/** On-time: from the gate, from the bridge, or from where a signal is driven. */
import { medianOf, robustDeviation } from "../../numerics/robust.ts";
import type { BridgeBurst } from "./bridge-output.ts";
import { combined, type Estimate, estimateOf, type Measured } from "./estimate.ts";
import type { DriveEdges } from "./tones.ts";
import type { Pulse } from "./two-level.ts";

export interface OnTime {
  /** [s] */
  readonly estimate: Estimate;
  readonly by: "gate" | "bridge" | "signal";
  /** Where each burst was driven, in samples of the record. */
  readonly drives: readonly Pulse[];
  /** On-times of the bursts differ by more than the record's step and noise explain. */
  readonly varies: boolean;
}

/** Two edges, each anywhere between two samples: 90 % of their difference lies within this part of a step. */
const edgeHalfWidth = 1 - Math.sqrt(0.1);

/** At least one pulse. */
export function gateOnTime(pulses: readonly Pulse[], interval: number): OnTime {
  return { ...fromEdges(pulses, interval), by: "gate", drives: pulses };
}

/** From the bursts that the record holds whole; undefined where there is none. */
export function bridgeOnTime(bursts: readonly BridgeBurst[], interval: number): OnTime | undefined {
  const whole = bursts.filter(({ startSeen, cutAtEnd }) => startSeen && !cutAtEnd);
  return whole.length === 0
    ? undefined
    : { ...fromEdges(whole, interval, greatestDoubt(whole)), by: "bridge", drives: bursts };
}

const greatestDoubt = (bursts: readonly BridgeBurst[]): number =>
  bursts.reduce((most, burst) => Math.max(most, endDoubt(burst)), 0);

/** Part of a half-cycle by which an end that the output does not show may be off. */
const unseenEnd = 0.25;

/** By how much the end of a drive may be off beyond the sampling [samples]: feedback that comes late puts it behind the zero of the current. */
function endDoubt({ commutations, unsettled, endSeen }: BridgeBurst): number {
  const half = (commutations[commutations.length - 1]! - commutations[0]!) / (commutations.length - 1);
  return unsettled + (endSeen ? 0 : unseenEnd * half);
}

function fromEdges(pulses: readonly Pulse[], interval: number, doubt = 0): { estimate: Estimate; varies: boolean } {
  const lengths = pulses.map(({ from, to }) => to - from);
  const middle = medianOf(lengths);
  const scatter = robustDeviation(lengths);
  const varies = scatter > 0.7;
  // Bursts of one length on one clock meet the samples alike: their average is no surer than one of them.
  const half =
    Math.max(edgeHalfWidth, varies ? (1.645 * 1.253 * scatter) / Math.sqrt(lengths.length) : 0, doubt) * interval;
  const value = middle * interval;
  return { estimate: { value, low: value - half, high: value + half }, varies };
}

/** Mean rate of the bridge's changes over the bursts [Hz]; undefined where no burst has three. */
export function bridgeCarrier(bursts: readonly BridgeBurst[], interval: number): Measured | undefined {
  return combined(
    bursts.slice(0, 200).flatMap(({ commutations, unsettled }) => {
      const [first, last] = [commutations[0], commutations[commutations.length - 1]];
      if (first === undefined || last === undefined || commutations.length < 3) return [];
      const span = last - first;
      const value = (commutations.length - 1) / (2 * span * interval);
      return [{ value, error: (value / span) * Math.sqrt((1 + unsettled ** 2) / 6), freedom: 1e6 }];
    }),
  );
}

/**
 * What the square, or the tone that stands for the square drive leaves open, in half-cycles: standard deviation of the errors beyond the noise that
 * simulated records show (docs/captures.md), for the driven resonator's own current and for a channel coupled to it.
 */
const modelError = { whole: 0.006, steep: 0.085, gentle: 0.5 };
/** On-times of bursts that differ by more than this many half-cycles are not one on-time. */
const apart = 1.5;

/** From the edges that the decays' fits found; undefined where no burst has both. */
export function signalOnTime(
  edges: readonly DriveEdges[],
  { interval, frequency }: { interval: number; frequency: number },
): OnTime | undefined {
  const halfCycle = interval / frequency / 2;
  const found = edges.flatMap(({ driveStart, driveEnd, gentle, drive }) =>
    driveStart === undefined || driveEnd === undefined || driveEnd.at <= driveStart.at
      ? []
      : [
          {
            from: driveStart,
            to: driveEnd,
            gentle,
            whole: drive !== undefined,
            length: (drive?.length.value ?? driveEnd.at - driveStart.at) * interval,
            error: (drive?.length.error ?? Math.hypot(driveStart.error, driveEnd.error)) * interval,
          },
        ],
  );
  // Where the whole of a drive is explained, edges of others add nothing.
  const driven = found.some(({ whole }) => whole) ? found.filter(({ whole }) => whole) : found;
  if (driven.length === 0) return undefined;
  const middle = medianOf(driven.map(({ length }) => length));
  // An edge that was missed in one burst is no other on-time.
  const alike = driven.filter(({ length }) => Math.abs(length - middle) <= apart * halfCycle);
  const mean = combined(
    alike.map(({ length, error }) => ({
      value: length,
      error: Math.max(error, 0.003 * halfCycle),
      freedom: 50,
    })),
  );
  const varies = alike.length * 2 <= driven.length && driven.length > 1;
  const model =
    modelError[alike.every(({ whole }) => whole) ? "whole" : alike.some(({ gentle }) => gentle) ? "gentle" : "steep"] *
    halfCycle;
  const whole: Measured =
    mean === undefined || varies
      ? {
          value: middle,
          error: Math.max(model, robustDeviation(driven.map(({ length }) => length))),
          freedom: driven.length - 1,
        }
      : { ...mean, error: Math.hypot(mean.error, model) };
  return {
    estimate: estimateOf(whole),
    by: "signal",
    drives: (varies ? driven : alike).map(({ from, to }) => ({ from: from.at, to: to.at })),
    varies,
  };
}
