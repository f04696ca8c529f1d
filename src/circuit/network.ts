/** The circuit of one burst as plain data: bus, bridge, tank, coupled secondary modes, streamer, feedback. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Farad, Henry, Hertz, Ohm, Second, Volt } from "../units/si.ts";

/** Two equal capacitors in series, each with its own series resistance; the midpoint is earth and the return of a half bridge. */
export interface Bus {
  /** Across both, at the start of a burst without a history. */
  readonly voltage: Volt;
  readonly capacitorEach: Farad;
  readonly resistanceEach: Ohm;
}

/** What stands in the way of the current in a switch that is on (vce0 + rce·i) and in its diode (vf0 + rd·i). */
export interface SwitchDrop {
  readonly vce0: Volt;
  readonly rce: Ohm;
  readonly diode: { readonly vf0: Volt; readonly rd: Ohm };
}

/** Primary circuit: leads and coil in series with the tank capacitor. */
export interface PrimaryLoop {
  readonly inductance: Henry;
  readonly resistance: Ohm;
  readonly tankCapacitance: Farad;
}

/**
 * One mode of the secondary: a series R–L–C of its own, coupled to the primary alone. Its voltage is its share of the top's, and
 * the top's voltage is the sum over the modes. The mutual inductance may have either sign. See `modeOfResonance`.
 */
export interface SecondaryMode {
  readonly inductance: Henry;
  readonly capacitance: Farad;
  readonly resistance: Ohm;
  readonly mutual: Henry;
  /** Current at the base of the winding per ampere in this loop, with its sign. Default 1. */
  readonly baseCurrentRatio?: number;
}

/** Streamer: resistance and capacitance in series from the top to earth, absent until the top first reaches the voltage. */
export interface Streamer {
  readonly breakoutVoltage: Volt;
  readonly resistance: Ohm;
  readonly capacitance: Farad;
}

export interface FeedbackLoop {
  /** What the comparator listens to: s = x + lead·dx/dt of that current, or an oscillator of its own. */
  readonly sense: "primaryCurrent" | "secondaryCurrent" | { readonly fixedFrequency: Hertz };
  /** Half the width of the comparator's hysteresis, in amperes of the sensed current. */
  readonly threshold: Ampere;
  readonly lead: Second;
  /** From the comparator to the gates, a pure delay. */
  readonly delay: Second;
  /** The leads of the current transformer the other way round. Default false. */
  readonly reversed?: boolean;
}

/** What happens once the primary current first reaches the limit while the bridge is driven. */
export interface OvercurrentTrip {
  readonly limit: Ampere;
  /** `synchronous`: both sides go off at the next delayed change of the comparator. `immediate`: at once. */
  readonly action: "synchronous" | "immediate";
  /** Bursts that would begin within this time after a trip are not driven. Default 0. */
  readonly holdOff?: Second;
}

export interface BurstNetwork {
  readonly bridge: "half" | "full";
  readonly bus: Bus;
  readonly switch: SwitchDrop;
  /** Between one side of the bridge going off and the other going on. */
  readonly deadTime: Second;
  readonly primary: PrimaryLoop;
  /** One to three, or none for a primary alone. */
  readonly modes: readonly SecondaryMode[];
  readonly feedback: FeedbackLoop;
  readonly streamer?: Streamer;
  readonly overcurrent?: OvercurrentTrip;
}

/** Beyond this, in SI, a value is taken for a slip of the pen: products of two would leave the range of a double. */
const greatest = 1e60;

/** Share of the primary inductance that must be left beside the coupling; below it rounding decides. */
const leastLeakage = 1e-12;

/**
 * Throws where the circuit has no solution: a number that is not finite, an energy store of no size, a negative resistance,
 * coupling of one or more.
 * @throws OutOfDomain
 */
export function requireNetwork(network: BurstNetwork): void {
  const { bus, primary, feedback, streamer, overcurrent } = network;
  positive("bus.capacitorEach", bus.capacitorEach);
  notNegative("bus.voltage", bus.voltage);
  notNegative("bus.resistanceEach", bus.resistanceEach);
  notNegative("switch.vce0", network.switch.vce0);
  notNegative("switch.rce", network.switch.rce);
  notNegative("switch.diode.vf0", network.switch.diode.vf0);
  notNegative("switch.diode.rd", network.switch.diode.rd);
  notNegative("deadTime", network.deadTime);
  positive("primary.inductance", primary.inductance);
  positive("primary.tankCapacitance", primary.tankCapacitance);
  notNegative("primary.resistance", primary.resistance);
  network.modes.forEach((mode, m) => {
    positive(`modes.${m}.inductance`, mode.inductance);
    positive(`modes.${m}.capacitance`, mode.capacitance);
    notNegative(`modes.${m}.resistance`, mode.resistance);
    finite(`modes.${m}.mutual`, mode.mutual);
    finite(`modes.${m}.baseCurrentRatio`, mode.baseCurrentRatio ?? 1);
  });
  if (!(leakageInductance(network) > leastLeakage * primary.inductance))
    throw new OutOfDomain("requireNetwork", "the sum of M²/(L·L) over the modes must be below 1 (coupling below 1)");
  notNegative("feedback.threshold", feedback.threshold);
  notNegative("feedback.lead", feedback.lead);
  notNegative("feedback.delay", feedback.delay);
  if (typeof feedback.sense === "object") positive("feedback.sense.fixedFrequency", feedback.sense.fixedFrequency);
  if (streamer) {
    notNegative("streamer.breakoutVoltage", streamer.breakoutVoltage);
    positive("streamer.resistance", streamer.resistance);
    positive("streamer.capacitance", streamer.capacitance);
  }
  if (overcurrent) {
    positive("overcurrent.limit", overcurrent.limit);
    notNegative("overcurrent.holdOff", overcurrent.holdOff ?? 0);
  }
}

/**
 * What is left of the primary inductance when every mode is a short circuit: L_p − Σ M²/L, the inductance that di/dt meets.
 * @returns [H], positive for every circuit that can be built
 */
export function leakageInductance({ primary, modes }: Pick<BurstNetwork, "primary" | "modes">): Henry {
  let left = primary.inductance;
  for (const { mutual, inductance } of modes) left -= (mutual * mutual) / inductance;
  return left;
}

/**
 * Mutual inductance of two coils of given coupling, M = k·√(L₁·L₂).
 * @param coupling  −1 to 1
 */
export function mutualOfCoupling({
  coupling,
  primaryInductance,
  modeInductance,
}: {
  coupling: number;
  primaryInductance: Henry;
  modeInductance: Henry;
}): Henry {
  return coupling * Math.sqrt(primaryInductance * modeInductance);
}

function finite(name: string, value: number): void {
  if (!(Math.abs(value) <= greatest))
    throw new OutOfDomain("requireNetwork", `${name} must be finite and below ${greatest}, got ${value}`);
}

function positive(name: string, value: number): void {
  finite(name, value);
  if (!(value >= 1 / greatest)) throw new OutOfDomain("requireNetwork", `${name} must be positive, got ${value}`);
}

function notNegative(name: string, value: number): void {
  finite(name, value);
  if (value < 0) throw new OutOfDomain("requireNetwork", `${name} must not be negative, got ${value}`);
}
