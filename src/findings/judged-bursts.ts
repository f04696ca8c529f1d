/** The bursts that findings stand on, studied in one place so that every caller judges by the same ones. */
import type { Coil } from "../description/coil.ts";
import type { BurstSetting, BurstStudy } from "../workbench/burst-contract.ts";
import { study } from "../workbench/burst-stage.ts";
import type { Solution } from "../workbench/contract.ts";
import { settingAtLimits, settingUnlit } from "./limits.ts";
import { sameAgain, settingsBeyond } from "./within-limits.ts";

/** As `assess` takes them. */
export interface JudgedBursts {
  readonly study: BurstStudy;
  /** At the interrupter's limits, where they let through more than the setting. */
  readonly atLimits?: BurstStudy;
  /** There, if the top never broke out. */
  readonly unlit?: BurstStudy;
  /** Others inside the limits, at the stated mains or below, that reach further, ring higher or put more into the sparks. */
  readonly beyond?: readonly BurstStudy[];
}

/**
 * Studies the burst at a setting, at the interrupter's limits, there without breakout, and what inside the limits goes beyond these.
 *
 * @param setting    what is moved against the file; it stays moved in the others
 * @param waveforms  of the first, also sample them
 * @throws OutOfDomain  as `study`
 */
export function judgedBursts(
  coil: Coil,
  solution: Solution,
  setting: BurstSetting = {},
  { waveforms = false }: { readonly waveforms?: boolean } = {},
): JudgedBursts {
  const bursts = cornerBursts(coil, solution, setting, waveforms);
  const beyond = settingsBeyond(coil, solution, setting, Object.values(bursts));
  return beyond.length === 0
    ? bursts
    : { ...bursts, beyond: beyond.map((one) => study(one.coil, solution, one.setting)) };
}

function cornerBursts(
  coil: Coil,
  solution: Solution,
  setting: BurstSetting,
  waveforms = false,
): Omit<JudgedBursts, "beyond"> {
  const [limits, dark] = [settingAtLimits(coil, setting), settingUnlit(coil, setting)];
  return {
    study: study(coil, solution, setting, { waveforms }),
    ...(limits ? { atLimits: study(coil, solution, limits) } : {}),
    ...(dark ? { unlit: study(coil, solution, dark) } : {}),
  };
}

/** As `judgedBursts` of a coil that was moved a little: what goes beyond the corner is taken at the places where it was found before. */
export function judgedAgain(
  coil: Coil,
  solution: Solution,
  { coil: was, bursts }: { readonly coil: Coil; readonly bursts: JudgedBursts },
): JudgedBursts {
  const corner = cornerBursts(coil, solution, {});
  const beyond = bursts.beyond?.map((found) => sameAgain({ was, coil }, { found, own: bursts.study }));
  return beyond ? { ...corner, beyond: beyond.map((one) => study(one.coil, solution, one.setting)) } : corner;
}
