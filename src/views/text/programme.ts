/** The head of the programme page: what of the song is played, what it does to the coil, and what was left out and why. */

import type { Figures } from "../../catalogue/figure.ts";
import { quantities } from "../../catalogue/quantities.ts";
import { reasonWords } from "../../findings/index.ts";
import { formatQuantity } from "../../units/format.ts";
import type { ProgrammeStudy, ReasonTally } from "../../workbench/programme-contract.ts";
import { compared } from "../programme-words.ts";
import { headText } from "./head.ts";
import { painter } from "./paint.ts";
import { padded, paddedLeft, wrap } from "./wrap.ts";

const celsiusZero = 273.15;

export const cautions =
  "High voltage can kill, also while it sings. Nobody inside the line that standoff gives, ears covered, a hand at the stop. No line of this page is a permission to switch on.";

export function programmeText({
  name,
  programme,
  fileName,
  width = 80,
  colour = false,
}: {
  /** Of the coil. */
  name: string;
  programme: ProgrammeStudy;
  fileName: string;
  width?: number;
  colour?: boolean;
}): string {
  const paint = painter(colour);
  const says = (words: string) => wrap(words, { width });
  const heading = (words: string) => paint("bold", words);
  const blocks = [
    [headText({ name, fileName, width, paint }), says(songWords(programme)), ...courseWords(programme).map(says)],
    ...table(heading("shortened and left out"), reasonLines(programme.reasons)),
    ...(programme.voices.length > 1 ? table(heading("voices"), voiceLines(programme)) : []),
    ...fitBlock(programme, heading, says),
    ...(programme.missing.length > 0 ? [programme.missing.map(({ path, says: why }) => says(`${path}: ${why}.`))] : []),
    [says(cautions)],
  ];
  return `${blocks.map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

const table = (title: string, lines: readonly string[]): readonly (readonly string[])[] =>
  lines.length === 0 ? [] : [[title, ...lines]];

const shown = (figures: Figures, id: string): string => {
  const found = figures.get(id);
  if (found?.unit === "1" && Number.isInteger(found.value)) return count(found.value);
  const digits = quantities.get(id)?.display.digits ?? 4;
  return found === undefined ? "–" : formatQuantity(found.value, displayUnit(id, found.unit), { digits, trim: true });
};
const displayUnit = (id: string, unit: string): string => {
  const display = quantities.get(id)?.display.unit;
  return display === undefined || display === "auto" ? unit : display;
};
const count = (value: number): string => String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, "\u202f");

const pulsesWords = (value: number): string => `${count(value)} pulse${Math.round(value) === 1 ? "" : "s"}`;

function songWords({ song, figures }: ProgrammeStudy): string {
  const value = (id: string) => figures.get(id)?.value ?? 0;
  const voices = `${song.voices.length} voice${song.voices.length === 1 ? "" : "s"}`;
  const lasts = formatQuantity(song.duration, "s", { digits: 3, trim: true });
  const notes = `${count(song.notes.length)} note${song.notes.length === 1 ? "" : "s"}`;
  const title = song.title === undefined ? "The song" : `“${song.title}”`;
  if (figures.size === 0) return `${title}: ${notes} of ${voices}, ${lasts}. Nothing is planned.`;
  const [sent, wanted] = [value("programme.pulses"), value("programme.wanted")];
  const parts = [
    ["programme.trimmed", "shortened"],
    ["programme.merged", "merged with another note's"],
    ["programme.dropped", "left out"],
  ].flatMap(([id = "", what]) => (value(id) > 0 ? [`${count(value(id))} ${what}`] : []));
  const pulses =
    parts.length === 0 && sent === wanted
      ? sent === 1
        ? "Its one pulse is sent as it is wanted."
        : `All ${count(sent)} pulses are sent as they are wanted.`
      : `${count(sent)} of ${pulsesWords(wanted)} ${sent === 1 || wanted === 1 ? "is" : "are"} sent${parts.length === 0 ? "" : `: ${parts.join(", ")}`}.`;
  return `${title}: ${notes} of ${voices}, ${lasts}. ${pulses}`;
}

function courseWords({ song, figures, limits }: ProgrammeStudy): string[] {
  if (figures.size === 0 || limits === undefined) return [];
  const has = (id: string) => figures.has(id);
  const celsius = (kelvin: number) => `${formatQuantity(kelvin - celsiusZero, "1", { digits: 3, trim: true })} °C`;
  const duty = formatQuantity(limits.duty, "%", { digits: 3, trim: true });
  const rate = formatQuantity(limits.rate, "Hz", { digits: 4, trim: true });
  return [
    `The worst 20 ms have a duty of ${shown(figures, "programme.peakDuty")} (limit ${duty}), the worst second has ${pulsesWords(figures.get("programme.peakRate")?.value ?? 0)} (limit ${rate}); no pulse is longer than ${shown(figures, "programme.longestOnTime")}.`,
    ...(has("programme.meanPower")
      ? [
          `It takes ${shown(figures, "programme.meanPower")} from the bus in the mean${song.duration > 1 ? ` and ${shown(figures, "programme.peakPower")} in the worst second` : ""}; the bus falls to ${shown(figures, "programme.lowestBus")}.`,
        ]
      : []),
    ...(has("programme.junctionPeak") && limits.junction
      ? [
          `The junction comes to ${shown(figures, "programme.junctionPeak")} (limit ${celsius(limits.junction.most)})${has("programme.capacitorPeak") && limits.capacitor ? `, the bank to ${shown(figures, "programme.capacitorPeak")} (held below ${celsius(limits.capacitor.most)})` : ""}.`,
        ]
      : []),
    ...(has("programme.pitchError")
      ? [`No note is further than ${shown(figures, "programme.pitchError")} from its pitch in the mean.`]
      : []),
  ];
}

function reasonLines(tally: ReasonTally): string[] {
  return (Object.entries(tally) as readonly (readonly [keyof ReasonTally, ReasonTally[keyof ReasonTally]])[])
    .filter(([, { trimmed, dropped }]) => trimmed + dropped > 0)
    .sort(([, a], [, b]) => b.dropped + b.trimmed - a.dropped - a.trimmed)
    .map(
      ([reason, { trimmed, dropped }]) =>
        `  ${paddedLeft(count(trimmed), 9)} shortened ${paddedLeft(count(dropped), 9)} left out  ${reasonWords[reason]}`,
    );
}

const nameWidth = 20;

function voiceLines({ voices }: ProgrammeStudy): string[] {
  const columns = ["notes", "not heard", "sent", "shortened", "merged", "left out"];
  const row = (name: string, cells: readonly string[]) =>
    `  ${padded(name.length > nameWidth ? `${name.slice(0, nameWidth - 1)}…` : name, nameWidth)}${cells.map((cell, n) => paddedLeft(cell, n === 0 ? 7 : 10)).join("")}`.slice(
      0,
      80,
    );
  return [
    row("", columns),
    ...voices.map((voice) =>
      row(voice.name, [voice.notes, voice.silent, voice.sent, voice.trimmed, voice.merged, voice.dropped].map(count)),
    ),
  ];
}

function fitBlock(
  { fit, figures }: ProgrammeStudy,
  heading: (words: string) => string,
  says: (words: string) => string,
): (readonly string[])[] {
  if (fit === undefined) return [];
  const { before, steps } = fit;
  return [
    [
      `${heading("made to fit")}`,
      ...steps.map((step) => says(`  ${step.says[0]?.toUpperCase()}${step.says.slice(1)}.`)),
      `  ${padded("", 24)}${paddedLeft("before", 14)}${paddedLeft("after", 14)}`,
      ...compared
        .filter((id) => figures.has(id))
        .map(
          (id) =>
            `  ${padded(quantities.get(id)?.name ?? id, 24)}${paddedLeft(shown(before.figures, id), 14)}${paddedLeft(shown(figures, id), 14)}`,
        ),
    ],
  ];
}
