/** Bursts repeated at one setting until one is like the next: bus, streamer and what still rings. */
import { type BurstResult, rechargedBus, rest, simulateBurst } from "../burst/index.ts";
import type { BurstNetwork, CircuitState, Ripple } from "../circuit/index.ts";
import { bridgeRipple, doublerRipple } from "../circuit/rectifier.ts";
import type { Supply } from "../description/coil.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import {
  type ChannelReach,
  channelConstants,
  channelLoad,
  channelReach,
  keptShare,
  type ReachConstants,
  rememberedEnergy,
} from "../stress/index.ts";
import type { Ampere, Metre, Second, Volt } from "../units/si.ts";
import type { BurstCircuit } from "./burst-circuit.ts";
import { type FullSetting, peaksOf, periodOf } from "./burst-setting.ts";

export interface SteadyTrain {
  /** The network and the result of the last burst run. */
  readonly network: BurstNetwork;
  readonly result: BurstResult;
  readonly initial: CircuitState | undefined;
  readonly endTime: Second;
  readonly onTime: Second;
  readonly period: Second;
  /** Of the supply at the mean current; undefined where the bus is nothing. */
  readonly ripple: Ripple | undefined;
  /** Mean current out of the bus: bursts and bleeders. */
  readonly busCurrent: Ampere;
  /** From which the last burst began, and the channel that loaded it: where a finer circuit may start from. */
  readonly start: TrainStart;
  /** Of the steady train; `load` is the mean length in the burst, which loads the top. */
  readonly channel: (ChannelReach & { readonly load: Metre }) | undefined;
  readonly bursts: number;
  readonly settled: boolean;
  /** The bus capacitors empty between two half-waves of the mains. */
  readonly starved: boolean;
}

export interface TrainStart {
  readonly busVoltage: Volt;
  readonly load: Metre;
  readonly initial: CircuitState | undefined;
}

/** Bursts at most, and how like two must be: bus in parts of its voltage, channel in parts of its length. */
const most = 9;
const alike = { bus: 2e-3, channel: 0.02 };
/** A channel is never taken shorter than this [m]: the load must stay finite. */
const shortest: Metre = 1e-3;
/** Time constants of the current after which ringing is gone, and cycles for which it is followed at most. */
const goneAfter = 12;
const cyclesFollowed = 400;
/** Guards of one burst: some hundred times what a usual one needs. */
const limits = { events: 20_000, steps: 60_000 };

/**
 * Runs bursts until bus voltage and channel length repeat.
 *
 * The mean current of one burst sets the mean of the bus for the next; energy and top voltage of one set the channel of the next, whose mean
 * length between the start and the end of the burst loads the top throughout. What still rings in the secondary is carried over; the charge
 * left on the tank is not, since what bleeds it between bursts is not in the file.
 *
 * @param setting  `busVoltage` is held as it is where `held`, else it is the mains' peak, from which the ripple takes
 * @param from     bus and channel of a coarser train to begin with
 * @throws OutOfDomain  as `simulateBurst`
 * @source burst-train, channel-growth, ideal-rectifier; neglected: growth within the burst changes the load from its mean (docs/burst.md)
 */
export function steadyTrain({
  circuit,
  supply,
  setting,
  held,
  from,
  constants = channelConstants,
}: {
  circuit: BurstCircuit;
  supply: Supply;
  setting: FullSetting;
  held: boolean;
  /** Of the channel's reach. */
  constants?: ReachConstants;
  from?: TrainStart;
}): SteadyTrain {
  const period = periodOf(setting);
  const onTime = Math.min(setting.onTime, period);
  const ring = ringTime(circuit);
  const whole = Math.min(period, onTime + ring);
  const sparks = setting.streamer && setting.breakoutVoltage > 0;
  let busVoltage: Volt = from?.busVoltage ?? setting.busVoltage;
  let load: Metre = from?.load ?? Math.max(shortest, setting.breakoutVoltage / channelConstants.coldGradient.taken);
  const steps: { at: number; to: number }[] = [];
  let initial = from?.initial && withModes(from.initial, circuit.network.modes.length);
  let endTime = whole;
  let bursts = 0;
  const reaches: ChannelReach[] = [];
  for (;;) {
    const streamer = sparks
      ? {
          breakoutVoltage: setting.breakoutVoltage,
          ...channelLoad({ length: load, frequency: circuit.operatingFrequency }),
        }
      : undefined;
    const network = circuit.with({ busVoltage, streamer });
    const pulse = {
      onTime,
      burstEnd: "synchronous",
      waveforms: false,
      limits,
      ...(initial ? { initial } : {}),
    } as const;
    let result = simulateBurst(network, { ...pulse, endTime });
    // The last burst may have been cut shorter by a trip that this one does not reach.
    if (result.remarks.includes("gatesStillDriven") && endTime < whole) {
      endTime = whole;
      result = simulateBurst(network, { ...pulse, endTime });
    }
    bursts++;
    const drawn: Ampere = busVoltage > 0 ? (Math.max(0, result.energyNet) * setting.rate) / busVoltage : 0;
    const busCurrent = drawn + bleederCurrent(supply, busVoltage);
    const { ripple, starved } = rippleOf({ supply, peak: setting.busVoltage, current: busCurrent });
    const nextBus = held ? setting.busVoltage : (ripple?.mean ?? setting.busVoltage);
    const channel = sparks ? channelOf(result, { period, constants }) : undefined;
    if (channel) reaches.push(channel);
    const broken = result.breakoutTime !== undefined;
    const settledBus = Math.abs(nextBus - busVoltage) <= alike.bus * busVoltage;
    const settledChannel = !broken || channel === undefined || Math.abs(channel.load / load - 1) <= alike.channel;
    const settled = settledBus && settledChannel && (bursts > 1 || from !== undefined || setting.rate === 0);
    if (settled || bursts >= most || result.reached !== "endTime") {
      return {
        network,
        start: { busVoltage, load, initial },
        result,
        initial,
        endTime,
        onTime,
        period,
        ripple,
        busCurrent,
        channel: channel && (settled ? channel : { ...channel, ...swing(reaches) }),
        bursts,
        settled,
        starved,
      };
    }
    if (channel && broken) {
      steps.push({ at: Math.log(load), to: Math.log(Math.max(shortest, channel.load)) });
      load = Math.exp(nextGuess(steps));
    }
    busVoltage = nextBus;
    initial = nextStart({ network, result, pause: period - result.at, busVoltage, supply });
    endTime = Math.min(whole, (result.gatesOffTime ?? onTime) + ring);
  }
}

/**
 * What the next burst begins with; undefined is at rest. Ringing that has had a dozen time constants is gone. A secondary that next to
 * nothing damps is followed for some hundred cycles and taken as it is then.
 */
function nextStart({
  network,
  result,
  pause,
  busVoltage,
  supply,
}: {
  network: BurstNetwork;
  result: BurstResult;
  pause: Second;
  busVoltage: Volt;
  supply: Supply;
}): CircuitState | undefined {
  const mode = network.modes[0];
  if (!mode || pause * mode.resistance > 2 * goneAfter * mode.inductance) return undefined;
  const cycle = 2 * Math.PI * Math.sqrt(mode.inductance * mode.capacitance);
  const left = rest({ network, state: result.finalState, duration: Math.min(pause, cyclesFollowed * cycle) });
  const charged = rechargedBus({ state: left, voltage: busVoltage, separately: supply.rectifier === "doubler" });
  return charged.primaryCurrent === 0 ? { ...charged, tankVoltage: 0 } : charged;
}

/** Bursts that a train is judged by which does not settle: it may go to and fro between them. */
const swinging = 4;

/** Ends of the interval over the last bursts. */
function swing(reaches: readonly ChannelReach[]): { readonly low: Metre; readonly high: Metre } {
  const last = reaches.slice(-swinging);
  return { low: Math.min(...last.map(({ low }) => low)), high: Math.max(...last.map(({ high }) => high)) };
}

/** Higher modes begin at rest. */
function withModes(state: CircuitState, count: number): CircuitState {
  return { ...state, modes: Array.from({ length: count }, (_, m) => state.modes[m] ?? { current: 0, voltage: 0 }) };
}

/** Two beats of the poles, or ten cycles where they are far apart, after the drive: the primary has gone quiet by then. */
function ringTime({ network, operatingFrequency }: BurstCircuit): Second {
  const mode = network.modes[0];
  const tank = 1 / (2 * Math.PI * Math.sqrt(network.primary.inductance * network.primary.tankCapacitance));
  if (!mode) return 10 / tank;
  const own = 1 / (2 * Math.PI * Math.sqrt(mode.inductance * mode.capacitance));
  const coupling = Math.abs(mode.mutual) / Math.sqrt(network.primary.inductance * mode.inductance);
  const beat = Math.hypot(own - tank, coupling * operatingFrequency);
  return Math.max(10 / operatingFrequency, Math.min(1.5 / beat, 40 / operatingFrequency));
}

/** Secant on the logarithm of the length; plain substitution where the two last guesses say nothing. */
function nextGuess(steps: readonly { at: number; to: number }[]): number {
  const now = steps.at(-1)!;
  const before = steps.at(-2);
  if (!before || Math.abs(now.at - before.at) < 1e-9) return now.to;
  const slope = Math.min(0.5, Math.max(-4, (now.to - before.to) / (now.at - before.at)));
  return now.at + (now.to - now.at) / (1 - slope);
}

function channelOf(
  result: BurstResult,
  { period, constants }: { period: Second; constants: ReachConstants },
): ChannelReach & { load: Metre } {
  const memory = constants.memory.taken;
  const energy = rememberedEnergy({ perBurst: result.ledger.streamer, period, memory });
  const reach = channelReach({ energy, voltage: result.peakTopVoltage, constants });
  // What the last burst left is there when this one begins; energy adds to it evenly. Cold streamers stand at once.
  const hot = Math.min(reach.byEnergy, reach.byVoltage);
  return { ...reach, load: Math.max(reach.cold, (hot * (1 + keptShare({ period, memory }))) / 2) };
}

/** Through all bleeders in series, of which every place of the string has one. */
function bleederCurrent({ rectifier, capacitors }: Supply, busVoltage: Volt): Ampere {
  const places = capacitors.series * peaksOf({ rectifier });
  return capacitors.bleeder === undefined ? 0 : busVoltage / (places * capacitors.bleeder);
}

/** @param peak  [V] of the whole bus with nothing drawn */
function rippleOf({ supply, peak, current }: { supply: Supply; peak: Volt; current: Ampere }): {
  ripple: Ripple | undefined;
  starved: boolean;
} {
  const { each, series, parallel } = supply.capacitors;
  const capacitance = (each * parallel) / series;
  const source = { rms: peak / peaksOf(supply) / Math.SQRT2, frequency: supply.mains.frequency };
  if (!(peak > 0)) return { ripple: undefined, starved: false };
  try {
    const ripple =
      supply.rectifier === "doubler"
        ? doublerRipple({ source, capacitanceEach: capacitance, current })
        : bridgeRipple({ source, capacitance, load: { current } });
    return { ripple, starved: false };
  } catch (problem) {
    if (problem instanceof OutOfDomain) return { ripple: undefined, starved: true };
    throw problem;
  }
}
