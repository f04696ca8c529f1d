/** The head of the burst page: in a few lines what happens in one burst. */

import { formatQuantity, formatRange } from "../../units/format.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { headText } from "./head.ts";
import { painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

/** Sections that a burst needs. */
const needed = ["primary", "tank", "bridge", "supply", "feedback", "interrupter"];

/** The coil's name, and the sentences that answer the question of the page. */
export function burstText({
  name,
  study,
  atLimits,
  unlit,
  fileName,
  width = 80,
  colour = false,
}: {
  /** Of the coil. */
  name: string;
  study: BurstStudy;
  atLimits?: BurstStudy;
  /** At the limits, if the top never broke out. */
  unlit?: BurstStudy;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const paint = painter(colour);
  const says = (words: string) => wrap(words, { width });
  const lines = [headText({ name, fileName, width, paint })];
  if (!study.figures.has("burst.peakPrimaryCurrent")) {
    const missing = study.missing.filter(({ path }) => needed.includes(path));
    return `${[...lines, ...missing.map((one) => says(`${one.path}: ${one.says}.`))].join("\n")}\n`;
  }
  lines.push(says(courseWords(study)), says(peakWords(study)), says(streamerWords(study)));
  if (atLimits?.figures.has("burst.peakPrimaryCurrent")) lines.push(says(limitWords(atLimits)));
  if (unlit?.figures.has("burst.peakPrimaryCurrent")) lines.push(says(unlitWords(unlit)));
  lines.push(...study.remarks.map((remark) => says(`Note: ${remark}.`)));
  return `${lines.join("\n")}\n`;
}

const shown = ({ figures }: BurstStudy, id: string, digits = 3): string | undefined => {
  const found = figures.get(id);
  return found === undefined ? undefined : formatQuantity(found.value, found.unit, { digits });
};

const time = (seconds: number) => formatQuantity(seconds, "s", { digits: 3, trim: true });

function courseWords(study: BurstStudy): string {
  const { setting, lock } = study;
  const bus = shown(study, "bus.voltage", 4) ?? formatQuantity(setting.busVoltage, "V", { digits: 4 });
  const rate = formatQuantity(setting.rate, "1", { digits: 4, trim: true });
  const train =
    setting.rate > 0 ? `Bursts of ${time(setting.onTime)}, ${rate} a second` : `One burst of ${time(setting.onTime)}`;
  const driven = shown(study, "burst.driveTime");
  const frequency = shown(study, "burst.frequency", 4);
  const halfCycles = study.figures.get("burst.halfCycles")?.value;
  const pole = lock === undefined || lock.pole === "none" ? "" : `, on the ${lock.pole} pole`;
  return [
    `${train}, from a bus of ${bus}.`,
    ...(driven === undefined
      ? []
      : [
          `Each is driven for ${driven}${halfCycles === undefined ? "" : `, ${Math.round(halfCycles)} half-cycles`}${frequency === undefined ? "" : ` at ${frequency}${pole}`}.`,
        ]),
  ].join(" ");
}

function peakWords(study: BurstStudy): string {
  const streamer = study.figures.get("burst.energy.streamer")?.value ?? 0;
  const kept =
    (study.figures.get("burst.energyDrawn")?.value ?? 0) - (study.figures.get("burst.energyReturned")?.value ?? 0);
  const share =
    kept > 0 && streamer > 0
      ? `; ${formatQuantity(streamer / kept, "%", { digits: 2 })} of what it keeps go to the streamer`
      : "";
  return `The primary current peaks at ${shown(study, "burst.peakPrimaryCurrent")}, the bank at ${shown(study, "burst.peakTankVoltage")}, the top at ${shown(study, "burst.peakTopVoltage")}. A burst draws ${shown(study, "burst.energyDrawn")} and gives ${shown(study, "burst.energyReturned")} back${share}.`;
}

function streamerWords(study: BurstStudy): string {
  const { setting, breakoutTime, figures } = study;
  if (!setting.streamer) return "No streamer was reckoned with: the top rings up as far as its losses let it.";
  if (!(setting.breakoutVoltage > 0)) return "There is no top load to break out.";
  const length = figures.get("burst.streamerLength");
  const reach =
    length === undefined
      ? ""
      : `${formatRange({ low: length.low ?? length.value, high: length.high ?? length.value }, "m", { digits: 2 })} (90 %)`;
  if (breakoutTime === undefined) {
    return `The top does not break out: that takes ${formatQuantity(setting.breakoutVoltage, "V", { digits: 3 })}.${reach === "" ? "" : ` A point, a scratch or dust on it may still draw ${reach}.`}`;
  }
  return `The top breaks out after ${time(breakoutTime)}, at ${formatQuantity(setting.breakoutVoltage, "V", { digits: 3 })}${reach === "" ? "" : `; in free air the streamer reaches ${formatQuantity(length?.value ?? 0, "m", { digits: 2 })}, ${reach}`}.`;
}

function limitWords(study: BurstStudy): string {
  const { setting, figures } = study;
  const length = figures.get("burst.streamerLength");
  const high = length?.high ?? length?.value;
  const reach =
    high === undefined || high === 0 ? "" : `, a reach of up to ${formatQuantity(high, "m", { digits: 2 })}`;
  return `The interrupter's limits let through bursts of ${time(setting.onTime)}, ${formatQuantity(setting.rate, "1", { digits: 4, trim: true })} a second: ${shown(study, "burst.peakPrimaryCurrent")} in the primary, ${shown(study, "burst.peakTopVoltage")} on the top${reach}.`;
}

function unlitWords(study: BurstStudy): string {
  const cut = study.tripTime === undefined ? "" : ", where the overcurrent setting ends it";
  return `If the top did not break out it would come to ${shown(study, "burst.peakPrimaryCurrent")} and ${shown(study, "burst.peakTopVoltage")}${cut}.`;
}
