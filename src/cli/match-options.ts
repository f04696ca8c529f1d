/** What a person says about records on the command line, in the words of the record. */
import type { CaptureSettings, ColumnSetting } from "../readers/capture.ts";
import { type Dimension, readQuantity } from "../units/index.ts";
import { type ChannelRole, channelRoles, type RecordState, recordStates } from "../workbench/match-capture.ts";
import { UserError } from "./io.ts";

export interface MatchCommandOptions {
  readonly json?: boolean;
  readonly adopt?: boolean;
  readonly log?: boolean;
  readonly practice?: string;
  readonly role?: readonly string[];
  readonly transformer?: readonly string[];
  readonly state?: readonly string[];
  readonly bus?: readonly string[];
  readonly delimiter?: string;
  readonly decimal?: string;
  readonly headerLines?: string;
  readonly interval?: string;
  readonly column?: readonly string[];
  readonly observedLength?: readonly string[];
  readonly onTime?: readonly string[];
  readonly rate?: readonly string[];
}

/** What is said of the channels, by their number from 1 or their name. */
export interface ChannelSayings {
  readonly roles: ReadonlyMap<string, ChannelRole>;
  readonly transformers: ReadonlyMap<string, { readonly ratio: number; readonly burden: number }>;
}

/** @throws UserError  no channel, no such role, or no ratio and burden */
export function channelSayings({ role = [], transformer = [] }: MatchCommandOptions): ChannelSayings {
  return {
    roles: new Map(
      role.map((text) => {
        const [channel, name] = pair("--role", text, "2=primaryCurrent");
        if (!isRole(name))
          throw new UserError(`--role ${text}: expected one of ${Object.keys(channelRoles).join(", ")}`);
        return [channel, name];
      }),
    ),
    transformers: new Map(
      transformer.map((text) => {
        const [channel, value] = pair("--transformer", text, "2=1000/5.1");
        const [ratio = Number.NaN, burden = Number.NaN] = value
          .split("/")
          .map((part) => Number(part.replace(/\s*(Ω|ohm)$/i, "")));
        if (!(ratio > 0 && burden > 0)) {
          throw new UserError(`--transformer ${text}: expected ratio and burden in ohms, as in 2=1000/5.1`);
        }
        return [channel, { ratio, burden }];
      }),
    ),
  };
}

function pair(option: string, text: string, example: string): readonly [string, string] {
  const at = text.lastIndexOf("=");
  const [channel, value] = [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  if (at < 1 || value === "")
    throw new UserError(`${option} ${text}: expected a channel and what it is, as in ${example}`);
  return [channel, value];
}

const isRole = (name: string): name is ChannelRole => Object.hasOwn(channelRoles, name);
const isState = (name: string): name is RecordState => Object.hasOwn(recordStates, name);

/** One for each record: said once for all, or once for each. @throws UserError any other count, or no such state */
export function statesOf({ state = [] }: MatchCommandOptions, records: number): readonly (RecordState | undefined)[] {
  return eachOf("--state", state, records).map((name) => {
    if (name === undefined || isState(name)) return name;
    throw new UserError(`--state ${name}: expected one of ${Object.keys(recordStates).join(", ")}`);
  });
}

/** @throws UserError no voltage, or neither one nor as many as there are records */
export function busesOf({ bus = [] }: MatchCommandOptions, records: number): readonly (number | undefined)[] {
  return eachOf("--bus", bus, records).map((text) =>
    text === undefined ? undefined : quantityOf("--bus", /^[\d.]+$/.test(text) ? `${text} V` : text, "voltage"),
  );
}

function eachOf(option: string, values: readonly string[], records: number): readonly (string | undefined)[] {
  if (values.length > 1 && values.length !== records) {
    throw new UserError(
      `${option} was given ${values.length} times for ${records} records; give it once, or once for each`,
    );
  }
  return Array.from({ length: records }, (_, n) => (values.length === 1 ? values[0] : values[n]));
}

function quantityOf(option: string, text: string, dimension: Dimension): number {
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading)
    throw new UserError(`${option} ${text}: ${reading.problem.what}; expected ${reading.problem.expected}`);
  return reading.quantity.value;
}

const delimiters: Readonly<Record<string, NonNullable<CaptureSettings["delimiter"]>>> = {
  ",": ",",
  ";": ";",
  "|": "|",
  tab: "\t",
  space: " ",
};

/** How the file is to be read, where that was guessed wrongly. @throws UserError something that no record is written in */
export function dialectSettings({
  delimiter,
  decimal,
  headerLines,
  interval,
  column = [],
}: MatchCommandOptions): CaptureSettings {
  const sign = delimiter === undefined ? undefined : delimiters[delimiter];
  if (delimiter !== undefined && sign === undefined) {
    throw new UserError(`--delimiter ${delimiter}: expected one of , ; | tab space`);
  }
  if (decimal !== undefined && decimal !== "." && decimal !== ",")
    throw new UserError(`--decimal ${decimal}: expected . or ,`);
  const lines = headerLines === undefined ? undefined : Number(headerLines);
  if (lines !== undefined && !(Number.isInteger(lines) && lines >= 0)) {
    throw new UserError(`--header-lines ${headerLines}: expected a count of lines, 0 or more`);
  }
  return {
    ...(sign === undefined ? {} : { delimiter: sign }),
    ...(decimal === undefined ? {} : { decimal }),
    ...(lines === undefined ? {} : { headerLines: lines }),
    ...(interval === undefined ? {} : { interval: quantityOf("--interval", interval, "time") }),
    ...(column.length === 0 ? {} : { columns: Object.fromEntries(column.map(columnSetting)) }),
  };
}

const columnUses = ["time", "channel", "ignored"] as const;

/** `2=unit:mV,scale:10`: columns are counted from 1. */
function columnSetting(text: string): readonly [number, ColumnSetting] {
  const [spoken, parts] = pair("--column", text, "2=unit:mV,scale:10");
  const number = Number(spoken);
  if (!(Number.isInteger(number) && number >= 1))
    throw new UserError(`--column ${text}: expected a column counted from 1, as in 2=unit:mV`);
  const said = parts.split(",").map((part) => sayingOf(text, part));
  return [number - 1, Object.assign({}, ...said)];
}

function sayingOf(text: string, part: string): ColumnSetting {
  const [key = "", value = ""] = part.split(":").map((one) => one.trim());
  const use = columnUses.find((one) => one === value);
  const scale = Number(value);
  if (key === "use" && use !== undefined) return { use };
  if (key === "unit" && value !== "") return { unit: value };
  if (key === "name" && value !== "") return { name: value };
  if (key === "scale" && Number.isFinite(scale) && scale !== 0 && value !== "") return { scale };
  if (key === "codes" && value === "none") return { codes: "none" };
  throw new UserError(
    `--column ${text}: expected use:${columnUses.join("|")}, unit:mV, name:loop, scale:10 or codes:none, with commas between`,
  );
}

/** @throws UserError no count from 1, or records beside it */
export function practiceNumber({ practice }: MatchCommandOptions, records: number): number | undefined {
  if (practice === undefined) return undefined;
  const number = Number(practice);
  if (!(Number.isInteger(number) && number >= 1)) throw new UserError(`--practice ${practice}: expected 1, 2, 3 or on`);
  if (records > 0) throw new UserError("--practice makes up its own record; give no other beside it");
  return number;
}
