/** What a study is asked for, every default filled in. */
import type { Coil, Supply } from "../description/coil.ts";
import type { Second, Volt } from "../units/si.ts";
import type { BurstSetting } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";

export type FullSetting = Required<Omit<BurstSetting, "mains">>;

/** Number of mains peaks across the whole bus. */
export const peaksOf = ({ rectifier }: Pick<Supply, "rectifier">): 1 | 2 => (rectifier === "doubler" ? 2 : 1);

/**
 * @returns `busVoltage` is the mains' peak where it was not set: a ceiling that the ripple then lowers
 * @throws nothing: a value that is no number or out of range is brought to the nearest one that can be computed
 */
export function fullSetting(coil: Coil, { figures }: Solution, setting: BurstSetting): FullSetting {
  const { interrupter, supply } = coil;
  const peak: Volt = supply ? peaksOf(supply) * Math.SQRT2 * supply.mains.voltage : 0;
  return {
    onTime: notNegative(setting.onTime ?? interrupter?.onTime ?? 0),
    rate: notNegative(setting.rate ?? interrupter?.rate ?? 0),
    busVoltage: notNegative((setting.mains ?? 1) * (setting.busVoltage ?? peak)),
    streamer: setting.streamer ?? true,
    modes: setting.modes ?? 1,
    senseReversed: setting.senseReversed ?? false,
    breakoutVoltage: notNegative(setting.breakoutVoltage ?? figures.get("topload.breakoutVoltage")?.value ?? 0),
  };
}

/** From one burst to the next; a burst alone is given a second. */
export const periodOf = ({ rate }: Pick<FullSetting, "rate">): Second => (rate > 0 ? 1 / rate : 1);

const notNegative = (value: number): number => (Number.isFinite(value) ? Math.max(0, value) : 0);
