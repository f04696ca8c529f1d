/** The page of stand-off: the line and what decides it, what can still hurt, the usual cautions, and what is not known. */

import type { Coil } from "../../description/coil.ts";
import { keepOff } from "../../workbench/keep-off.ts";
import type { ChecklistPart, Standoff, StandoffTouch, Store, TouchBand } from "../../workbench/standoff-contract.ts";
import {
  contactWords,
  depthWords,
  mark,
  metres,
  shown,
  span,
  storeWords,
  thresholdWords,
  timeText,
  who,
} from "../standoff-words.ts";
import { headText } from "./head.ts";
import { type Paint, painter } from "./paint.ts";
import { padded, paddedLeft, wrap } from "./wrap.ts";

interface Page {
  readonly width: number;
  readonly paint: Paint;
}

/** @param checklist  of the show day, printed where given */
export function standoffText({
  coil,
  standoff,
  checklist,
  fileName,
  width = 80,
  colour = false,
}: {
  coil: Coil;
  standoff: Standoff;
  checklist?: readonly ChecklistPart[];
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const page: Page = { width, paint: painter(colour) };
  const { paint } = page;
  const blocks = [
    `${headText({ name: coil.name, fileName, width, paint })}\n${wrap(standoff.closing, { width })}`,
    lineBlock(standoff, page),
    ...(standoff.fields ? [fieldsBlock(standoff, page)] : []),
    ...(standoff.noise ? [noiseBlock(standoff, page)] : []),
    storedBlock(standoff, page),
    touchBlock(standoff.touch, page),
    cautionsBlock(standoff, page),
    ...(checklist ? [checklistBlock(checklist, page)] : []),
    ...(standoff.missing.length > 0 ? [missingBlock(standoff, page)] : []),
    hazardsBlock(standoff, page),
  ];
  return `${blocks.join("\n\n")}\n`;
}

const bullet = (says: string, { width }: Page, mark = "- "): string =>
  wrap(says, { width, first: `  ${mark}`, indent: " ".repeat(2 + mark.length) });

function lineBlock({ line, figures, basis }: Standoff, page: Page): string {
  const { paint, width } = page;
  const value = (id: string) => figures.get(id);
  const [reach, strike, audience] = ["standoff.reach", "standoff.strike", "standoff.audience"].map(value);
  const head =
    reach === undefined || strike === undefined || audience === undefined || line.decides === undefined
      ? "No reach can be computed from this file, and so no line: nobody but the operator in the room."
      : `The arc may reach ${keepOff(reach.value)} (from ${metres(reach.low ?? 0)}) ${basis}. Nobody and nothing earthed within ${keepOff(strike.value)} of where it may break out. Bystanders at ${keepOff(audience.value)} or more from the axis, behind a barrier: that is decided by this, ${line.decides.says}.`;
  return [
    paint("bold", "the line"),
    wrap(head, { width, first: "  " }),
    ...line.candidates.map(({ id, says, distance, source }) => {
      const number = paddedLeft(distance === undefined ? "–" : keepOff(distance), 8);
      const decides = id === line.decides?.id ? " ← decides" : "";
      return wrap(`${says} (${mark(source)})${decides}`, { width, first: `  ${number}  `, indent: " ".repeat(12) });
    }),
  ].join("\n");
}

function fieldsBlock({ fields, figures }: Standoff, page: Page): string {
  const { paint, width } = page;
  if (fields === undefined) return "";
  const row = (cells: readonly string[]) =>
    `  ${padded(cells[0] ?? "", 34)}${cells
      .slice(1)
      .map((cell) => paddedLeft(cell, 11))
      .join("")}`.trimEnd();
  const line = figures.get("standoff.audience")?.value ?? 0;
  const emission = fields.emission;
  return [
    paint("bold", `fields at ${shown(fields.frequency, "Hz")}, nobody touching anything`),
    paint("dim", row(["", "level", `at ${metres(line)}`, "passed to"])),
    ...fields.comparisons.map(
      ({ field, who: of, guards, level, atLine, unit, distance, source, over }) =>
        row([
          `${field}, ${who[of]}, ${guards}`,
          shown(level, unit),
          `${shown(atLine, unit)}${over ? " !" : ""}`,
          metres(distance),
        ]) + (source === "icnirp-2020-whole" ? "  (m)" : ""),
    ),
    wrap(
      `Levels of ICNIRP 2010 and 2020 as reproduced in a handbook; (m) from memory. Nerve levels are held against the field inside the burst, heat levels against its mean over minutes. Upper bounds, up to 2 m above the floor, good to about ${metres(fields.validTo)}. A level that is passed means assess further, not injury; one that is not passed is no permission.`,
      { width, first: "  " },
    ),
    ...(emission
      ? [
          wrap(
            `At ${metres(emission.distance)}, unscreened: ${shown(emission.field, "V/m", 2)}, beside ${shown(emission.limit, "V/m", 2)} of 47 CFR 15.209 as quoted. No legal advice.`,
            { width, first: "  " },
          ),
        ]
      : []),
  ].join("\n");
}

function noiseBlock({ noise }: Standoff, page: Page): string {
  const { paint, width } = page;
  if (noise === undefined) return "";
  const { levelAt1m, levelAtLine, timeToFullDose, timeToFullDoseByOsha, duration, dose, crest, measured } = noise;
  const atLine =
    levelAtLine && timeToFullDose && timeToFullDoseByOsha
      ? ` At the line, over a hard floor, ${shown(levelAtLine.value, "dB(A)")} (${span(levelAtLine, "dB(A)")}): a day's dose of 85 dB(A) over 8 h with 3 dB exchange is full after ${timeText(timeToFullDose.low)} at the loud end; by 90 dB(A) and 5 dB, ${timeText(timeToFullDoseByOsha.low)}.`
      : "";
  const share =
    duration !== undefined && dose !== undefined
      ? ` ${timeText(duration)} of sparks are ${shown(dose, "%", 2)} of it there.`
      : "";
  return [
    paint("bold", "noise"),
    wrap(
      `About ${shown(levelAt1m.value, "dB(A)")} at 1 m in the open (${span(levelAt1m, "dB(A)")}), ${measured ? "from the level that was measured" : "estimated"}.${atLine}${share} Peaks lie about ${shown(crest, "1", 2)} dB above the mean; 140 dB peak is the published ceiling. Hearing protection for operator and first rows, always.`,
      { width, first: "  " },
    ),
    ...noise.notes.map((says) => bullet(says, page)),
  ].join("\n");
}

function storedBlock({ stored }: Standoff, page: Page): string {
  const { paint } = page;
  const line = (store: Store): string => {
    const over = store.comparisons.filter((one) => one.over).map((one) => `${one.says} (${mark(one.source)})`);
    return `${storeWords(store)} ${over.length === 0 ? "Under the lines it is held against." : `Over: ${over.join("; ")}.`}`;
  };
  return [
    paint("bold", "stored energy"),
    ...stored.stores.map((one) => bullet(line(one), page)),
    ...stored.steps.map((says, index) => bullet(says, page, `${index + 1}. `)),
  ].join("\n");
}

function touchBlock(touch: StandoffTouch, page: Page): string {
  const { paint, width } = page;
  const { first, pulse, bands, chargePerBurst, excitation, objects, contacts, not } = touch;
  const deep = depthWords(touch);
  return [
    paint("stop", "touch: why it hurts; never a permission"),
    ...first.map((says) => bullet(says, page)),
    ...(pulse
      ? [
          wrap(
            `One spark from the top, ${shown(pulse.capacitance, "F")} at ${shown(pulse.voltage, "V")} through 500 Ω: ${shown(pulse.peak, "A")} for ${shown(pulse.duration, "s")}, ${shown(pulse.charge, "C")}, ${shown(pulse.squareTime, "A²s")}, ${shown(pulse.energy, "J")}. Felt from ${shown(pulse.felt[0], "C")}, painful from ${shown(pulse.painful[0], "C")}, from memory.`,
            { width, first: "  " },
          ),
        ]
      : []),
    ...bands.map((band) => bandText(band, page)),
    ...(chargePerBurst
      ? [
          wrap(
            `In each burst an unequal arc moves ${shown(chargePerBurst.value, "C", 2)} one way (${span(chargePerBurst, "C")}). The asymmetry is not known: 0.01, 0.05 and 0.3 are taken.`,
            { width, first: "  " },
          ),
        ]
      : []),
    ...(excitation
      ? [
          wrap(
            `A nerve takes ${shown(excitation.nerve, "1", 2)} times more at this frequency than at a slow one, the heart ${shown(excitation.heart, "1", 2)} times, from memory; that is why the carrier alone tingles or warms where the lines at the rate grip.`,
            { width, first: "  " },
          ),
        ]
      : []),
    ...(deep === undefined ? [] : [wrap(deep, { width, first: "  " })]),
    ...contacts.map((contact) => bullet(contactWords(contact), page)),
    ...objects.map(({ name, says }) => bullet(`${name}: ${says}`, page)),
    ...not.map((says) => bullet(says, page)),
  ].join("\n");
}

function bandText({ says, frequency, current, thresholds, contactLevels }: TouchBand, page: Page): string {
  const { width } = page;
  const against = thresholds.map(thresholdWords);
  const contact = contactLevels.map(
    ({ who: of, level, over }) => `contact, ${of}, ${shown(level, "A", 2)}: ${over ? "over" : "under"}`,
  );
  const at = frequency > 0 ? ` at ${shown(frequency, "Hz")}` : "";
  return wrap(
    `${says}${at}: ${shown(current.value, "A", 2)}${frequency > 0 ? " rms" : ""} (${span(current, "A")}). By the upper end: ${[...against, ...contact].join("; ")}.`,
    { width, first: "  ", indent: "    " },
  );
}

function cautionsBlock({ cautions }: Standoff, page: Page): string {
  const { paint } = page;
  return [
    paint("bold", "cautions"),
    ...cautions.map(({ title, says }) => bullet(`${title}. ${says.join(" ")}`, page)),
  ].join("\n");
}

function checklistBlock(parts: readonly ChecklistPart[], page: Page): string {
  const { paint } = page;
  return [
    paint("bold", "show day: one does, one reads and watches"),
    ...parts.flatMap(({ title, items }) => [
      `  ${title}`,
      ...items.map(({ says, by }) => bullet(`${says} (${by})`, page, "[ ] ")),
    ]),
  ].join("\n");
}

function missingBlock({ missing }: Standoff, page: Page): string {
  const { paint } = page;
  return [
    paint("bold", "not in the file"),
    ...missing.map(({ path, says }) => bullet(path === "" ? says : `${path}: ${says}`, page)),
  ].join("\n");
}

function hazardsBlock({ hazards }: Standoff, page: Page): string {
  const { paint } = page;
  const open = hazards.filter(({ acknowledged }) => !acknowledged);
  return [
    paint("bold", "hazards to take on by name, before a show sheet is printed"),
    ...hazards.map(({ name, says, acknowledged }) => bullet(`${name}: ${says}`, page, acknowledged ? "[x] " : "[ ] ")),
    ...(open.length === 0
      ? []
      : [bullet(`show.acknowledged lacks ${open.map(({ name }) => name).join(", ")}`, page, "! ")]),
  ].join("\n");
}
