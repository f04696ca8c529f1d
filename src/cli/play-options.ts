/** What `play` is told, in the words of the command line. */
import type { Song } from "../description/song.ts";
import { type Dimension, readQuantity } from "../units/index.ts";
import type { ProgrammeOptions } from "../workbench/programme-contract.ts";
import { UserError } from "./io.ts";

export interface PlayOptions {
  readonly json?: boolean;
  readonly why?: string;
  readonly csv?: string;
  readonly wav?: string;
  readonly gateWav?: string;
  readonly gateRate?: string;
  readonly gateNegative?: boolean;
  readonly midi?: string;
  readonly firmware?: string;
  readonly idlesHigh?: boolean;
  readonly fit?: boolean;
  readonly mute?: readonly string[];
  readonly first?: readonly string[];
  readonly transpose?: string;
  readonly onTime?: string;
  readonly tone?: string;
  readonly sweep?: string;
  readonly lasts?: string;
}

/** Length of a tone or a sweep where none is given [s]. */
const usualLength = 10;

/** @throws UserError an option is none of what it can be; the message says what was expected */
export function programmeOptions(options: PlayOptions, song: Song): ProgrammeOptions {
  const muted = (options.mute ?? []).map((text) => voiceOf(text, song, "--mute"));
  const first = (options.first ?? []).map((text) => voiceOf(text, song, "--first"));
  return {
    ...(options.fit ? { fit: true } : {}),
    ...(options.onTime === undefined
      ? {}
      : {
          onTime: quantity("--on-time", options.onTime, {
            dimension: "time",
            from: 1e-6,
            to: 0.1,
            range: "1 µs to 100 ms",
          }),
        }),
    ...(options.transpose === undefined ? {} : { transpose: semitones(options.transpose) }),
    ...(muted.length > 0 ? { muted } : {}),
    // The first that was named comes first.
    ...(first.length > 0
      ? {
          priorities: song.voices.map((_, voice) => {
            const place = first.indexOf(voice);
            return place < 0 ? undefined : 1 + first.length - place;
          }),
        }
      : {}),
  };
}

/** The tone or sweep that was asked for in place of a song. @throws UserError both, or no frequency */
export function toneOf({ tone, sweep, lasts }: PlayOptions): { from: number; to: number; lasts: number } | undefined {
  if (tone !== undefined && sweep !== undefined) throw new UserError("--tone and --sweep: give one of them");
  const length =
    lasts === undefined
      ? usualLength
      : quantity("--lasts", lasts, { dimension: "time", from: 0.01, to: 3600, range: "10 ms to 1 h" });
  const hertz = (option: string, text: string) =>
    quantity(option, text.trim(), { dimension: "frequency", from: 1, to: 20e3, range: "1 Hz to 20 kHz" });
  if (tone !== undefined) {
    const frequency = hertz("--tone", tone);
    return { from: frequency, to: frequency, lasts: length };
  }
  if (sweep === undefined) return undefined;
  const ends = sweep.split("..");
  if (ends.length !== 2 || ends.some((end) => end.trim() === ""))
    throw new UserError(`--sweep ${sweep}: expected two frequencies, e.g. 100Hz..800Hz`);
  return { from: hertz("--sweep", ends[0] ?? ""), to: hertz("--sweep", ends[1] ?? ""), lasts: length };
}

const rates = [44_100, 48_000, 96_000, 192_000] as const;

/** @throws UserError no sample rate of a sound card */
export function gateRateOf(text: string | undefined): (typeof rates)[number] {
  const found = text === undefined ? 192_000 : rates.find((rate) => String(rate) === text.trim());
  if (found === undefined) throw new UserError(`--gate-rate ${text}: expected one of ${rates.join(", ")}`);
  return found;
}

function quantity(
  option: string,
  text: string,
  { dimension, from, to, range }: { dimension: Dimension; from: number; to: number; range: string },
): number {
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading) {
    const { what, expected } = reading.problem;
    throw new UserError(`${option} ${text}: ${what}; expected ${expected}`);
  }
  const { value } = reading.quantity;
  if (!(value >= from && value <= to)) throw new UserError(`${option} ${text} is out of range; expected ${range}`);
  return value;
}

function semitones(text: string): number {
  const value = Number(text.replace("−", "-"));
  if (text.trim() === "" || !(Math.abs(value) <= 60))
    throw new UserError(`--transpose ${text}: expected semitones, −60 to 60; −12 is an octave lower`);
  return value;
}

/** By its number from 1, or by its name. */
function voiceOf(text: string, { voices }: Song, option: string): number {
  const named = voices.findIndex(({ name }) => name.toLowerCase() === text.trim().toLowerCase());
  const number = Number(text);
  const found = named >= 0 ? named : Number.isInteger(number) ? number - 1 : -1;
  if (voices[found] === undefined) {
    const list = voices.map(({ name }, n) => `${n + 1} ${name}`).join(", ");
    throw new UserError(`${option} ${text}: there is no such voice; the song has ${list}`);
  }
  return found;
}
