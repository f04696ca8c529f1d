/** The streamer as a channel: how long energy and voltage let it grow, and what it puts on the top. */
import { electricConstant } from "../fields/vacuum.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Farad, Hertz, Joule, Metre, Ohm, Second, Volt } from "../units/si.ts";

/** A constant of the channel: ends of its interval, what is taken between them, and where it comes from. */
export interface ChannelConstant {
  readonly least: number;
  readonly taken: number;
  readonly greatest: number;
  readonly unit: string;
  readonly origin: string;
}

const between = (least: number, greatest: number, unit: string, origin: string): ChannelConstant => ({
  least,
  taken: Math.sqrt(least * greatest),
  greatest,
  unit,
  origin,
});

/** Every constant of the channel in one table; the value taken is the geometric mean of the ends. docs/burst.md prints it. */
export const channelConstants = {
  energyPerMetre: between(
    2.8,
    20,
    "J/m",
    "2.8: heating a cold channel of 0.5 mm radius by 3000 K (computed); 20: branches counted (common practice, no source)",
  ),
  coldGradient: between(
    4.5e5,
    5e5,
    "V/m",
    "positive streamers without a hot channel (read in a secondary source: streamer-gradient)",
  ),
  gradient: between(0.5e5, 2.5e5, "V/m", "channel used again from burst to burst (common practice, no source)"),
  radius: between(
    1e-3,
    1e-2,
    "m",
    "a bare channel to a branched one with its space charge (common practice, no source)",
  ),
  memory: between(
    5e-3,
    50e-3,
    "s",
    "how long a channel stays hot enough to be used again (common practice, no source)",
  ),
  resistanceFactor: between(1 / 3, 3, "1", "resistance over 1/(ωC), where the channel takes most power (from memory)"),
} as const satisfies Record<string, ChannelConstant>;

/** The constants that decide a channel's reach. */
export interface ReachConstants {
  readonly energyPerMetre: ChannelConstant;
  readonly gradient: ChannelConstant;
  readonly memory: ChannelConstant;
}

/** What is left of a constant's spread, either way, once lengths of the same coil have told it: strikes differ. This project's own judgement. */
const toldSpread = 1.3;

/** The table's constants, or those that a coil's own lengths have told. */
export function reachConstants({
  energyPerMetre,
  voltagePerMetre,
  memory,
}: {
  readonly energyPerMetre?: Joule;
  readonly voltagePerMetre?: Volt;
  readonly memory?: Second;
} = {}): ReachConstants {
  const told = (value: number | undefined, from: ChannelConstant): ChannelConstant =>
    value === undefined
      ? from
      : {
          least: value / toldSpread,
          taken: value,
          greatest: value * toldSpread,
          unit: from.unit,
          origin: "lengths seen of this coil (coil file)",
        };
  return {
    energyPerMetre: told(energyPerMetre, channelConstants.energyPerMetre),
    gradient: told(voltagePerMetre, channelConstants.gradient),
    memory: told(memory, channelConstants.memory),
  };
}

/** The cold gradient is that of single impulses; bursts of a carrier may reach this factor less or more. Common practice, no source. */
export const coldFactor = 1.7;

/** Below this many radii a channel is a knob on the top load; its capacitance is taken in proportion to length from there. */
const shortestInRadii = 20;

/**
 * Capacitance of a thin channel in free air, 2π·ε0·L/(ln(2L/a) − 1).
 *
 * @param length  [m], ≥ 0
 * @param radius  [m]
 * @throws OutOfDomain  a length that is negative, a radius that is not positive
 * @validity  straight, thin, far from everything; below 20 radii taken in proportion to length. 8.4 pF/m (1 mm) to 12.9 pF/m (1 cm) at 1 m
 * @source    channel-capacitance
 */
export function channelCapacitance({
  length,
  radius = channelConstants.radius.taken,
}: {
  length: Metre;
  radius?: Metre;
}): Farad {
  if (!(length >= 0 && radius > 0))
    throw new OutOfDomain("channelCapacitance", `needs length ≥ 0 and radius > 0, got ${length} m and ${radius} m`);
  const shortest = shortestInRadii * radius;
  const counted = Math.max(length, shortest);
  const whole = (2 * Math.PI * electricConstant * counted) / (Math.log((2 * counted) / radius) - 1);
  return whole * Math.min(1, length / shortest);
}

/**
 * The channel as a resistance and a capacitance in series, R = 1/(ωC): the resistance at which a given capacitance takes most power.
 *
 * @param length     [m], > 0
 * @param frequency  [Hz] of the burst
 * @throws OutOfDomain  as `channelCapacitance`, or a frequency that is not positive
 * @validity  an order of magnitude; a real channel's resistance falls as it heats and rises as it grows
 * @source    channel-capacitance; power match from memory
 */
export function channelLoad({ length, frequency }: { length: Metre; frequency: Hertz }): {
  readonly capacitance: Farad;
  readonly resistance: Ohm;
} {
  if (!(frequency > 0)) throw new OutOfDomain("channelLoad", `the frequency must be positive, got ${frequency} Hz`);
  const capacitance = channelCapacitance({ length });
  return { capacitance, resistance: channelConstants.resistanceFactor.taken / (2 * Math.PI * frequency * capacitance) };
}

/** Reach of a channel [m] by its bounds, with the 90 % interval of the result. */
export interface ChannelReach {
  /** Hot channel that the energy can keep, and that the voltage can hold. */
  readonly byEnergy: Metre;
  readonly byVoltage: Metre;
  /** Cold streamers that the voltage alone sends out. */
  readonly cold: Metre;
  readonly length: Metre;
  readonly low: Metre;
  readonly high: Metre;
}

/**
 * Length that a channel reaches: hot, the lesser of energy over energy per metre and voltage over gradient; never less than the cold
 * streamers that leave the top within a microsecond once it breaks out.
 *
 * @param energy   [J] that the channel remembers, see `rememberedEnergy`
 * @param voltage  [V] peak of the top
 * @returns        90 % interval from the ends of the constants, each equally likely in proportion, independent
 * @source channel-growth: common practice, no source; streamer-gradient for the cold part
 */
export function channelReach({
  energy,
  voltage,
  constants = channelConstants,
}: {
  energy: Joule;
  voltage: Volt;
  constants?: ReachConstants;
}): ChannelReach {
  const { energyPerMetre, gradient, memory } = constants;
  const { coldGradient } = channelConstants;
  const byEnergy = energy / energyPerMetre.taken;
  const byVoltage = voltage / gradient.taken;
  const cold = voltage / coldGradient.taken;
  const energyFactor = ninetyOf(spread(energyPerMetre), Math.sqrt(spread(memory)));
  const voltageFactor = ninetyOf(spread(gradient));
  return {
    byEnergy,
    byVoltage,
    cold,
    length: Math.max(cold, Math.min(byEnergy, byVoltage)),
    low: Math.max(cold / coldFactor, Math.min(byEnergy / energyFactor, byVoltage / voltageFactor)),
    high: Math.max(cold * coldFactor, Math.min(byEnergy * energyFactor, byVoltage * voltageFactor)),
  };
}

/**
 * Energy of a steady train that a channel still holds at the end of a burst: each burst adds its own, and between two the rest fades by
 * e^(−period/memory), so that the sum is E/(1 − e^(−period/memory)).
 *
 * @param perBurst  [J]
 * @param period    [s] from burst to burst
 * @source geometric series; the memory is common practice, no source
 */
export function rememberedEnergy({
  perBurst,
  period,
  memory = channelConstants.memory.taken,
}: {
  perBurst: Joule;
  period: Second;
  memory?: Second;
}): Joule {
  if (!(period > 0)) throw new OutOfDomain("rememberedEnergy", `the period must be positive, got ${period} s`);
  return perBurst / -Math.expm1(-period / memory);
}

/** Share of its length that a channel keeps until the next burst. */
export function keptShare({
  period,
  memory = channelConstants.memory.taken,
}: {
  period: Second;
  memory?: Second;
}): number {
  return Math.exp(-period / memory);
}

const spread = ({ least, greatest }: ChannelConstant): number => Math.sqrt(greatest / least);

/** Factor that holds 90 % where independent factors, each equally likely in proportion between 1/f and f, multiply. */
function ninetyOf(...factors: readonly number[]): number {
  const variance = factors.reduce((sum, factor) => sum + Math.log(factor) ** 2 / 3, 0);
  return Math.exp(1.645 * Math.sqrt(variance));
}
