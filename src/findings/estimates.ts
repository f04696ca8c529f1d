/** Rough bounds on current, voltage and reach, for findings that must speak before a burst has been computed. Every one is an interval. */
import type { Bridge, Interrupter, Supply } from "../description/coil.ts";
import { relativeAirDensity } from "../fields/air.ts";
import type { Ampere, Joule, Metre, Second, Volt } from "../units/si.ts";
import type { Context } from "./rule.ts";
import { amperes, roughVolts, seconds } from "./words.ts";

export interface Estimate {
  readonly low: number;
  readonly high: number;
  /** What it stands on, to go after "at" or "with". */
  readonly basis: string;
  readonly evidence: readonly string[];
}

/** Relative air density at the site. */
export const airDensity = ({ coil }: Context): number => relativeAirDensity(coil.site.air);

/** Mean d.c. bus from the mains' peak. */
export const busVoltage = ({ mains, rectifier }: Supply): Volt =>
  Math.SQRT2 * mains.voltage * (rectifier === "doubler" ? 2 : 1);

/** Amplitude of the fundamental of the square wave that the bridge puts on the tank. */
export const driveAmplitude = ({ bridge, supply }: { bridge: Bridge; supply: Supply }): Volt =>
  ((bridge.kind === "full" ? 4 : 2) / Math.PI) * busVoltage(supply);

/** The longest burst that the interrupter can let through: its hard limit where one is given, else today's setting. */
export const longestBurst = ({ onTime, limits }: Interrupter): Second => Math.max(onTime, limits?.onTime ?? 0);

/**
 * Greatest tank current [A peak]: the overcurrent setting, or what the longest burst could ring up to, whichever is less.
 * Undefined where the file gives neither.
 * @source interrupter-ring-up
 */
export function tankCurrent(context: Context): Estimate | undefined {
  const { coil } = context;
  const trip = coil.feedback?.overcurrent;
  const ringUp = ringUpCurrent(context);
  if (trip !== undefined && (ringUp === undefined || trip <= ringUp.high)) {
    return {
      low: trip / 2,
      high: trip,
      basis: `the overcurrent setting of ${amperes(trip)}`,
      evidence: ["feedback.overcurrent"],
    };
  }
  return ringUp;
}

function ringUpCurrent({ coil, valueIfKnown }: Context): Estimate | undefined {
  const { bridge, supply, interrupter } = coil;
  const inductance = valueIfKnown("tank.inductance");
  if (!bridge || !supply || !interrupter || inductance === undefined) return undefined;
  const burst = longestBurst(interrupter);
  const high: Ampere = (driveAmplitude({ bridge, supply }) * burst) / (2 * inductance);
  return {
    low: high / 4,
    high,
    basis: `the ${amperes(high)} that a burst of ${seconds(burst)} can ring up to`,
    evidence: ["supply.mains", "interrupter", "tank.inductance"],
  };
}

/** Greatest voltage across the whole bank [V peak], I/(ωC). */
export function tankVoltage(context: Context): Estimate | undefined {
  const current = tankCurrent(context);
  const capacitance = context.valueIfKnown("tank.capacitance");
  const frequency = context.valueIfKnown("tank.frequency");
  if (current === undefined || capacitance === undefined || frequency === undefined) return undefined;
  const reactance = 1 / (2 * Math.PI * frequency * capacitance);
  return {
    low: current.low * reactance,
    high: current.high * reactance,
    basis: current.basis,
    evidence: [...current.evidence, "tank.capacitance", "tank.frequency"],
  };
}

/**
 * Voltage that the top may reach [V peak]: all of the tank's energy at its greatest current gathered in mode 1's energy capacitance. The low
 * end is a third of it. Where nothing bounds the current, the breakout voltage stands in, for at least that much is meant to be reached.
 * @source bank-energy-bound
 */
export function topVoltage(context: Context): Estimate | undefined {
  const current = tankCurrent(context);
  const inductance = context.valueIfKnown("tank.inductance");
  const capacitance = context.valueIfKnown("secondary.energyCapacitance");
  if (current !== undefined && inductance !== undefined && capacitance !== undefined) {
    const high = current.high * Math.sqrt(inductance / capacitance);
    return {
      low: high / 3,
      high,
      basis: `the ${roughVolts(high)} that the tank's energy could raise at ${current.basis}`,
      evidence: [...current.evidence, "tank.inductance", "secondary.energyCapacitance"],
    };
  }
  const breakout = context.valueIfKnown("topload.breakoutVoltage");
  if (breakout === undefined) return undefined;
  return {
    low: breakout,
    high: breakout,
    basis: `the ${roughVolts(breakout)} at which the top load breaks out`,
    evidence: ["topload.breakoutVoltage"],
  };
}

/** Most energy that one burst can draw [J]. @source burst-energy-bound */
export function burstEnergy(context: Context): Joule | undefined {
  const { bridge, supply, interrupter } = context.coil;
  const current = tankCurrent(context);
  if (!bridge || !supply || !interrupter || current === undefined) return undefined;
  return ((driveAmplitude({ bridge, supply }) * current.high) / 2) * longestBurst(interrupter);
}

/** Mean gradient of a channel [V/m]: used again from burst to burst, at its least and at its greatest. Source: hot-channel-gradient. */
const gradients = { least: 0.5e5, greatest: 2.5e5 };
/** Energy that heats a metre of fresh channel [J/m]. Source: burst-energy-bound. */
const energyPerMetre = 2.8;

/**
 * Reach of the streamer in free air [m]. Upper end: the greatest top voltage over the least gradient, and no more than the energy of one burst
 * can heat, where the file says enough to know that energy. The upper end decides findings about people and walls.
 */
export function reach(context: Context): Estimate | undefined {
  const voltage = topVoltage(context);
  if (voltage === undefined) return undefined;
  const energy = burstEnergy(context);
  const byVoltage: Metre = voltage.high / gradients.least;
  const high = energy === undefined ? byVoltage : Math.min(byVoltage, energy / energyPerMetre);
  return {
    low: Math.min(high, voltage.low / gradients.greatest),
    high,
    basis: voltage.basis,
    evidence: [...voltage.evidence, ...(energy === undefined ? [] : ["supply.mains", "interrupter"])],
  };
}
