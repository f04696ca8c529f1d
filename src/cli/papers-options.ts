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
}

/** @throws UserError an option is none of what it can be; the message says what that is */
export function papersWanted(
  { sheets: names, paper = "a4", units = "metric", format = paperFormats.join(","), date }: PapersCommandOptions,
  today: string,
): PapersWanted {
  return {
    sheets:
      names === undefined
        ? sheets
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

function dateOf(text: string): string {
  const time = Date.parse(`${text}T00:00:00Z`);
  const isDay = /^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(time);
  if (!isDay || new Date(time).toISOString().slice(0, 10) !== text)
    throw new UserError(`--date ${text}: expected a day such as 2026-01-31`);
  return text;
}
