/**
 * Current, voltage and reach for findings: of the computed burst where there is one, else rough bounds. Every one is an interval.
 */
import type { Bridge, Interrupter, Supply } from "../description/coil.ts";
import { relativeAirDensity } from "../fields/air.ts";
import type { Ampere, Joule, Metre, Second, Volt } from "../units/si.ts";
import { type Greatest, greatest } from "./greatest.ts";
import type { Context } from "./rule.ts";
import { amperes, roughVolts, seconds } from "./words.ts";

export interface Estimate {
  readonly low: number;
  /** What is to be expected, between the two. */
  readonly middle: number;
  readonly high: number;
  /** What it stands on, to go behind what is said: `at the overcurrent setting of 128 A`, `in a burst of 110 µs`. */
  readonly basis: string;
  readonly evidence: readonly string[];
}

/** A voltage that has a name of its own: `the 90 kV of a burst of 110 µs`. */
export interface VoltageEstimate extends Estimate {
  readonly said: string;
  /** Whether a burst was computed. */
  readonly computed: boolean;
}

/** What a computed burst reaches: at the setting the low end, at the interrupter's limits the high one. */
const computed = ({ now, most, basis, evidence }: Greatest): Estimate => ({
  low: now.value,
  middle: now.value,
  high: most.value,
  basis,
  evidence,
});

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
 * Greatest tank current [A peak], of the computed burst; without one the overcurrent setting, or what the longest burst could ring up to,
 * whichever is less. Undefined where the file gives neither.
 * @source burst-simulation; interrupter-ring-up
 */
export function tankCurrent(context: Context): Estimate | undefined {
  const found = greatest(context, "burst.peakPrimaryCurrent");
  return found ? computed(found) : tankCurrentBound(context);
}

function tankCurrentBound(context: Context): Estimate | undefined {
  const { coil } = context;
  const trip = coil.feedback?.overcurrent;
  const ringUp = ringUpCurrent(context);
  if (trip !== undefined && (ringUp === undefined || trip <= ringUp.high)) {
    return {
      low: trip / 2,
      middle: trip,
      high: trip,
      basis: `at the overcurrent setting of ${amperes(trip)}`,
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
    middle: high / 2,
    high,
    basis: `at the ${amperes(high)} that a burst of ${seconds(burst)} can ring up to`,
    evidence: ["supply.mains", "interrupter", "tank.inductance"],
  };
}

/** Greatest voltage across the whole bank [V peak], of the computed burst; without one I/(ωC). */
export function tankVoltage(context: Context): Estimate | undefined {
  const found = greatest(context, "burst.peakTankVoltage");
  if (found) return computed(found);
  const current = tankCurrentBound(context);
  const capacitance = context.valueIfKnown("tank.capacitance");
  const frequency = context.valueIfKnown("tank.frequency");
  if (current === undefined || capacitance === undefined || frequency === undefined) return undefined;
  const reactance = 1 / (2 * Math.PI * frequency * capacitance);
  return {
    low: current.low * reactance,
    middle: current.middle * reactance,
    high: current.high * reactance,
    basis: current.basis,
    evidence: [...current.evidence, "tank.capacitance", "tank.frequency"],
  };
}

/** Voltage that the top may reach [V peak], of the computed burst; without one `topVoltageBound`. */
export function topVoltage(context: Context): VoltageEstimate | undefined {
  const found = greatest(context, "burst.peakTopVoltage");
  if (found === undefined) return topVoltageBound(context);
  return {
    ...computed(found),
    said: `the ${roughVolts(found.most.value)} that the top reaches ${found.basis}`,
    computed: true,
  };
}

/**
 * What the top could be raised to [V peak] if nothing loaded it: all of the tank's energy at its greatest current gathered in mode 1's energy capacitance. The low
 * end is a third of it: losses, a streamer that loads the top, energy that stays in the tank. Undefined where nothing bounds the current.
 * @source bank-energy-bound
 */
export function topVoltageBound(context: Context): VoltageEstimate | undefined {
  const current = tankCurrentBound(context);
  const inductance = context.valueIfKnown("tank.inductance");
  const capacitance = context.valueIfKnown("secondary.energyCapacitance");
  if (current === undefined || inductance === undefined || capacitance === undefined) return undefined;
  const high: Volt = current.high * Math.sqrt(inductance / capacitance);
  const said = `the ${roughVolts(high)} that the tank's energy could raise ${current.basis}`;
  return {
    low: high / 3,
    middle: high / Math.sqrt(3),
    high,
    basis: `at ${said}`,
    said,
    computed: false,
    evidence: [...current.evidence, "tank.inductance", "secondary.energyCapacitance"],
  };
}

/** How long a channel stays hot enough to be used again [s]. Common practice, no source. */
const channelMemory: Second = 0.02;

/**
 * Most energy that can go into one channel [J]: at the drive's amplitude and the greatest current, through the longest burst or through all
 * bursts while the channel stays hot, whichever is more, at the interrupter's hard limits.
 * @source burst-energy-bound
 */
export function channelEnergy(context: Context): Joule | undefined {
  const { bridge, supply, interrupter } = context.coil;
  const current = tankCurrentBound(context);
  if (!bridge || !supply || !interrupter || current === undefined) return undefined;
  const duty = Math.min(1, interrupter.limits?.duty ?? longestBurst(interrupter) * interrupter.rate);
  const driven = Math.max(longestBurst(interrupter), duty * channelMemory);
  return ((driveAmplitude({ bridge, supply }) * current.high) / 2) * driven;
}

/** Between two ends that are equally likely in proportion: the middle, and by what factor each end lies from it. */
const between = (least: number, greatest: number) => ({
  middle: Math.sqrt(least * greatest),
  factor: Math.sqrt(greatest / least),
});
/** Mean gradient of a channel that is used again from burst to burst [V/m]. Source: hot-channel-gradient. */
const gradient = between(0.5e5, 2.5e5);
/** Energy a metre of channel takes, branches counted [J/m]. Source: burst-energy-bound. */
const energyPerMetre = between(2.8, 20);
/** Part of the greatest energy that is delivered. From memory. */
const delivered = between(0.2, 1);
/** Top voltage over its greatest. Source: bank-energy-bound. */
const raised = between(1 / 3, 1);

/** Factor that holds 90 % where independent factors, each equally likely in proportion between its ends, multiply. */
function ninetyOf(...factors: readonly number[]): number {
  const variance = factors.reduce((sum, factor) => sum + Math.log(factor) ** 2 / 3, 0);
  return Math.exp(1.645 * Math.sqrt(variance));
}

/**
 * Reach of the streamer in free air [m], 90 %, of the computed burst, and its upper end at the interrupter's hard limits; without one
 * `reachBound`. The upper end decides findings about people and walls.
 */
export function reach(context: Context): Estimate | undefined {
  const found = greatest(context, "burst.streamerLength", "high", context.beyond);
  if (found === undefined) return reachBound(context);
  const { now, most, basis, evidence } = found;
  return { low: now.low ?? now.value, middle: now.value, high: most.high ?? most.value, basis, evidence };
}

/**
 * Reach before a burst is computed [m], 90 %: the lesser of what the top voltage over a gradient and what the channel's energy over an energy a
 * metre allow, at the interrupter's hard limits.
 */
function reachBound(context: Context): Estimate | undefined {
  const voltage = topVoltageBound(context);
  if (voltage === undefined) return undefined;
  const energy = channelEnergy(context);
  const byVoltage: Metre = (raised.middle * voltage.high) / gradient.middle;
  const voltageFactor = ninetyOf(raised.factor, gradient.factor);
  const byEnergy: Metre =
    energy === undefined ? Number.POSITIVE_INFINITY : (delivered.middle * energy) / energyPerMetre.middle;
  const energyFactor = ninetyOf(delivered.factor, energyPerMetre.factor);
  return {
    low: Math.min(byVoltage / voltageFactor, byEnergy / energyFactor),
    middle: Math.min(byVoltage, byEnergy),
    high: Math.min(byVoltage * voltageFactor, byEnergy * energyFactor),
    basis: voltage.basis,
    evidence: [...voltage.evidence, ...(energy === undefined ? [] : ["supply.mains", "interrupter"])],
  };
}
