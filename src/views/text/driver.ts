/** The head of the driver page: in a few lines whether switches, bus, mains, gates and feedback hold. */

import type { Coil } from "../../description/coil.ts";
import { formatQuantity, formatRange } from "../../units/format.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { headText } from "./head.ts";
import { painter } from "./paint.ts";
import { wrap } from "./wrap.ts";

/** The coil's name, and a sentence for each part that the file gives. */
export function driverText({
  coil,
  study,
  fileName,
  width = 80,
  colour = false,
}: {
  coil: Coil;
  study: BurstStudy;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const paint = painter(colour);
  const sentences = [
    switchWords(coil, study),
    busWords(study),
    mainsWords(coil, study),
    timingWords(study),
    controlWords(coil, study),
  ];
  return `${[
    headText({ name: coil.name, fileName, width, paint }),
    ...sentences.filter((words) => words !== undefined).map((words) => wrap(words, { width })),
    ...(sentences.every((words) => words === undefined)
      ? [wrap("The file has neither bridge nor supply nor feedback: there is no driver to judge.", { width })]
      : []),
  ].join("\n")}\n`;
}

const shown = ({ figures }: BurstStudy, id: string, digits = 3): string | undefined => {
  const found = figures.get(id);
  return found === undefined ? undefined : formatQuantity(found.value, found.unit, { digits });
};

function switchWords({ bridge }: Coil, study: BurstStudy): string | undefined {
  const peak = study.figures.get("burst.peakPrimaryCurrent");
  const junction = study.figures.get("switch.junctionPeak");
  if (bridge === undefined || peak === undefined || junction === undefined) return undefined;
  const share = formatQuantity(peak.value / bridge.switch.pulse, "%", { digits: 2 });
  const range = formatRange({ low: junction.low ?? junction.value, high: junction.high ?? junction.value }, "°C", {
    digits: 3,
  });
  return `The switches see ${formatQuantity(peak.value, "A", { digits: 3 })} at the peak, ${share} of their pulse rating, and their junctions peak at ${shown(study, "switch.junctionPeak")} (${range}), against a limit of ${formatQuantity(bridge.switch.junctionMax, "K", { digits: 3 })}.`;
}

function busWords(study: BurstStudy): string | undefined {
  const stored = shown(study, "bus.storedEnergy");
  if (stored === undefined) return undefined;
  const time = study.figures.get("bus.dischargeTime");
  const seconds = (value: number) => formatQuantity(value, "s", { digits: 3, trim: true });
  const after =
    time === undefined
      ? "and nothing in the file discharges it"
      : `and takes ${seconds(time.value)}, up to ${seconds(time.high ?? time.value)}, to fall to 60 V after the plug is out: measure before you touch`;
  const sag = shown(study, "bus.sagPerBurst", 2);
  const load =
    sag === undefined
      ? ""
      : ` It stands at ${shown(study, "bus.voltage", 4) ?? "no steady voltage"}, sags by ${sag} in a burst and ripples by ${shown(study, "bus.ripple", 2) ?? "all of it"}.`;
  return `The bus holds ${stored} at ${shown(study, "bus.peakVoltage")} with the mains 10 % high, ${after}.${load}`;
}

function mainsWords({ supply }: Coil, study: BurstStudy): string | undefined {
  const inrush = shown(study, "mains.inrushPeak");
  if (supply === undefined || inrush === undefined) return undefined;
  const current = shown(study, "mains.currentRms");
  const fuse =
    supply.fuse === undefined ? "no fuse" : `a fuse of ${formatQuantity(supply.fuse, "A", { digits: 3, trim: true })}`;
  const steady =
    current === undefined ? "" : `takes ${current} for ${shown(study, "mains.power")} through ${fuse}, and `;
  return `From the mains it ${steady}${steady === "" ? "takes" : ""} up to ${inrush} at switch-on${supply.inrush === undefined ? ", since nothing limits it" : ", cold"}.`.replace(
    "  ",
    " ",
  );
}

function timingWords(study: BurstStudy): string | undefined {
  const error = study.figures.get("feedback.timeError");
  if (error === undefined) return undefined;
  const side = error.value < 0 ? "before" : "after";
  const amount = (id: string) => {
    const value = study.figures.get(id)?.value;
    return value === undefined || value > 0 ? shown(study, id) : "nothing";
  };
  const [off, on] = [amount("switch.commutationCurrent"), amount("switch.takenOverCurrent")];
  const currents =
    off === undefined || on === undefined
      ? ""
      : `: at most ${off} to switch off, and ${on} to take over from the opposite diode`;
  return `The gates change ${formatQuantity(Math.abs(error.value), "s", { digits: 2 })} ${side} the crossing of the current${currents}.`;
}

function controlWords({ supply }: Coil, study: BurstStudy): string | undefined {
  const rails = supply?.control?.rails;
  if (rails === undefined) return undefined;
  const least = rails
    .map(({ volts }, index) => ({ volts, headroom: study.figures.get(`control.rail.${index + 1}.headroom`)?.value }))
    .flatMap(({ volts, headroom }) => (headroom === undefined ? [] : [{ volts, headroom }]))
    .sort((a, b) => a.headroom - b.headroom)[0];
  if (least === undefined) return undefined;
  return `At low mains and full load the rail of ${formatQuantity(least.volts, "V", { digits: 3, trim: true })} has ${formatQuantity(least.headroom, "V", { digits: 2 })} to spare.`;
}
