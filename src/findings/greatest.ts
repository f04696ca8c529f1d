/** What a computed burst says at its worst: at the setting, at the interrupter's limits where they allow more, without breakout, or inside the limits beyond these. */
import type { Figure } from "../catalogue/figure.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import type { Context } from "./rule.ts";
import { percent, seconds } from "./words.ts";

export interface Greatest {
  /** At the setting. */
  readonly now: Figure;
  /** The greatest of all. */
  readonly most: Figure;
  /** The burst that `most` is of. */
  readonly study: BurstStudy;
  /** Which burst that is, to go behind what it does: `in a burst of 110 µs`. */
  readonly basis: string;
  /** The figure, and what the burst was cut by. */
  readonly evidence: readonly string[];
}

/** Part by which limits or a missing breakout must raise a figure before they are named instead of the setting. */
const worthNaming = 0.02;

/**
 * A figure of the burst at its greatest.
 * @param by      which end of its interval decides; its value where absent
 * @param beyond  other bursts to look at: those inside the limits that go beyond the corner are for what reaches people; parts are judged at it
 * @returns undefined where no burst was studied, or it lacks the figure
 */
export function greatest(
  context: Context,
  id: string,
  by: "value" | "high" = "value",
  beyond: readonly BurstStudy[] = [],
): Greatest | undefined {
  const { study, atLimits, unlit } = context;
  const now = study?.figures.get(id);
  if (study === undefined || now === undefined) return undefined;
  const size = (figure: Figure) => (by === "high" ? (figure.high ?? figure.value) : figure.value);
  let worst = { most: now, study };
  for (const other of [atLimits, unlit, ...beyond]) {
    const most = other?.figures.get(id);
    if (other === undefined || most === undefined) continue;
    if (size(most) > size(worst.most) + worthNaming * Math.abs(size(worst.most))) worst = { most, study: other };
  }
  return {
    now,
    ...worst,
    basis: burstWords(worst.study, study),
    evidence: [id, ...(worst.study.tripTime === undefined ? [] : ["feedback.overcurrent"])],
  };
}

/** `at 66 % of the mains`, where they are turned down: a trip or a longer channel lets full mains do less. */
function mainsWords(of: BurstStudy["setting"], at: BurstStudy["setting"]): string {
  const share = of.busVoltage / at.busVoltage;
  return share < 0.995 ? ` at ${percent(share)} of the mains` : "";
}

/** Which burst is meant: `in a burst of 110 µs`. */
function burstWords(of: BurstStudy, atSetting: BurstStudy): string {
  const unlit = atSetting.setting.streamer && !of.setting.streamer ? " without breakout" : "";
  const turned = mainsWords(of.setting, atSetting.setting);
  const harder = of.setting.onTime > atSetting.setting.onTime || of.setting.rate > atSetting.setting.rate;
  const limits = harder ? ", which the interrupter's limits let through" : "";
  const cut = of.tripTime !== undefined ? " that the overcurrent setting cuts short" : "";
  // Where the limits are named the length is theirs and where a trip cuts the burst the limits hardly matter.
  return `in a burst of ${seconds(of.setting.onTime)}${unlit}${turned}${limits === "" ? cut : limits}`;
}
