/** Supply, bridge, feedback and resonator of a coil as one circuit. */
import type { Bridge, Feedback, Supply, Tank } from "../description/coil.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Farad, Henry, Hertz, Ohm, Second, Volt } from "../units/si.ts";
import { mainsPeak } from "./mains.ts";
import type { BurstNetwork, Bus, SecondaryMode, Streamer } from "./network.ts";

/** What the fields and the modes give to the circuit. */
export interface ResonatorValues {
  /** Primary at the tap, without leads. */
  readonly primaryInductance: Henry;
  /** Primary at the operating frequency, without leads and capacitors. */
  readonly primaryResistance: Ohm;
  /** At which the capacitors' dissipation is turned into a resistance. */
  readonly operatingFrequency: Hertz;
  readonly modes: readonly SecondaryMode[];
}

/** Half of the comparator's hysteresis where nothing says otherwise: common practice, no source. */
const usualThreshold: Ampere = 1;

/**
 * The circuit of a burst.
 *
 * - Bus: the bank as two equal halves in series, whatever it is built of. Voltage: the mains' peak, twice that behind a doubler, unless
 *   given; the ripple and the supply's own drop are not in it.
 * - Primary: leads, coil and the capacitors' loss tanδ/(ω·C) in series.
 * - Over-current ends the burst at the next change of the comparator.
 *
 * @param busVoltage  [V], where the bus is not at the mains' peak
 * @param threshold   [A], half of the comparator's hysteresis; 1 A where it is not known
 * @param holdOff     [s] after an over-current
 * @returns a network that `simulateBurst` takes
 */
export function networkOfCoil({
  bridge,
  supply,
  tank,
  feedback,
  resonator,
  streamer,
  busVoltage,
  threshold = usualThreshold,
  holdOff = 0,
}: {
  bridge: Bridge;
  supply: Supply;
  tank: Tank;
  feedback: Feedback;
  resonator: ResonatorValues;
  streamer?: Streamer;
  busVoltage?: Volt;
  threshold?: Ampere;
  holdOff?: Second;
}): BurstNetwork {
  const { bank, leads } = tank;
  const tankCapacitance = (bank.each * bank.parallel) / bank.series;
  const omega = 2 * Math.PI * resonator.operatingFrequency;
  if (!(omega > 0 && tankCapacitance > 0))
    throw new OutOfDomain("networkOfCoil", "needs a positive operating frequency and tank capacitance");
  const { vce0, rce, diode } = bridge.switch;
  return {
    bridge: bridge.kind,
    bus: { ...busOfSupply(supply), ...(busVoltage === undefined ? {} : { voltage: busVoltage }) },
    switch: { vce0, rce, diode },
    deadTime: bridge.deadTime ?? 0,
    primary: {
      inductance: resonator.primaryInductance + leads.inductance,
      resistance: resonator.primaryResistance + leads.resistance + (bank.dissipation ?? 0) / (omega * tankCapacitance),
      tankCapacitance,
    },
    modes: resonator.modes,
    feedback: { sense: feedback.sense, threshold, lead: feedback.lead, delay: feedback.delay },
    ...(streamer ? { streamer } : {}),
    ...(feedback.overcurrent === undefined
      ? {}
      : { overcurrent: { limit: feedback.overcurrent, action: "synchronous" as const, holdOff } }),
  };
}

/**
 * The bank as two halves in series at the mains' peak: behind a doubler each half is a bank of its own, as the file says; behind a bridge the
 * one bank is counted as two halves of twice the capacitance.
 */
export function busOfSupply({ mains, rectifier, capacitors: { each, series, parallel, esr } }: Supply): Bus {
  const capacitance: Farad = (each * parallel) / series;
  const resistance: Ohm = (esr * series) / parallel;
  return rectifier === "doubler"
    ? { voltage: 2 * mainsPeak(mains.voltage), capacitorEach: capacitance, resistanceEach: resistance }
    : { voltage: mainsPeak(mains.voltage), capacitorEach: 2 * capacitance, resistanceEach: resistance / 2 };
}
