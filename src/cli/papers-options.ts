/** What is to be printed, from the command line. */
import { type PaperName, papers as paperSizes, type Sheet, sheets } from "../views/sheets/index.ts";
import { UserError } from "./io.ts";

export const paperFormats = ["pdf", "svg", "dxf", "csv"] as const;
export type PaperFormat = (typeof paperFormats)[number];

export interface PapersCommandOptions {
  readonly out: string;
  readonly sheets?: string;
  readonly paper?: string;
  readonly units?: string;
  readonly format?: string;
  readonly date?: string;
  readonly pictures?: boolean;
  readonly frames?: string;
  readonly json?: boolean;
}

export interface PapersWanted {
  readonly sheets: readonly Sheet[];
  /** Whether they were asked for by name. */
  readonly named: boolean;
  readonly paper: PaperName;
  readonly lengths: "mm" | "in";
  readonly formats: readonly PaperFormat[];
  readonly date: string;
  /** The teaching pictures too; each as so many frames, or as one still. */
  readonly pictures?: { readonly frames?: number };
}

/** @throws UserError an option is none of what it can be; the message says what that is */
export function papersWanted(
  {
    sheets: names,
    paper = "a4",
    units = "metric",
    format = paperFormats.join(","),
    date,
    pictures,
    frames,
  }: PapersCommandOptions,
  today: string,
): PapersWanted {
  if (frames !== undefined && !pictures) throw new UserError("--frames is of the pictures: give --pictures with it");
  return {
    // pictures are for another day than sheets: they come alone where no sheet is named
    sheets:
      names === undefined
        ? pictures
          ? []
          : sheets
        : listed(
            "--sheets",
            names,
            sheets.map(({ id }) => id),
          ).map(sheetOf),
    named: names !== undefined,
    paper: oneOf("--paper", paper, Object.keys(paperSizes) as PaperName[]),
    lengths: oneOf("--units", units, ["metric", "inch"] as const) === "metric" ? "mm" : "in",
    formats: listed("--format", format, paperFormats),
    date: dateOf(date ?? today),
    ...(pictures ? { pictures: frames === undefined ? {} : { frames: framesOf(frames) } } : {}),
  };
}

const sheetOf = (id: string): Sheet => sheets.find((sheet) => sheet.id === id) as Sheet;

function oneOf<T extends string>(option: string, text: string, words: readonly T[]): T {
  const found = words.find((word) => word === text.trim().toLowerCase());
  if (found === undefined) throw new UserError(`${option} ${text}: expected one of ${words.join(", ")}`);
  return found;
}

const listed = <T extends string>(option: string, text: string, words: readonly T[]): readonly T[] => [
  ...new Set(text.split(",").map((word) => oneOf(option, word, words))),
];

const mostFrames = 600;

function framesOf(text: string): number {
  const count = Number(text);
  if (!/^\d+$/.test(text.trim()) || count < 2 || count > mostFrames)
    throw new UserError(`--frames ${text}: expected a count from 2 to ${mostFrames}, such as 60`);
  return count;
}

function dateOf(text: string): string {
  const time = Date.parse(`${text}T00:00:00Z`);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(time);
  if (!isDay || new Date(time).toISOString().slice(0, 10) !== text)
    throw new UserError(`--date ${text}: expected a day such as 2026-01-31`);
  return text;
}
