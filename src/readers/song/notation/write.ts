/** A song → a tune as text, which reads back as the same notes. */
import type { Note, Song, Turn } from "../../../description/song.ts";
import type { Second } from "../../../units/si.ts";
import { cleanName } from "../names.ts";
import { frequencyOfPitch, nameOfPitch } from "./pitch.ts";

/** Times are written to the nanosecond. */
const digits = 9;

/**
 * Writes a song in the notation of docs/notation.md: times in seconds, a voice after the other.
 *
 * @returns text that `readNotation` reads as the same voices and notes: times within 1 ns, pitches within 0.001 cent. The channels of a MIDI
 *          file have no place in it; the colour of noise is rounded to a key.
 */
export function writeNotation({ title, voices, notes, duration }: Song): string {
  const lines = [`tune ${inLine(title ?? "")}`.trimEnd()];
  let last = 0;
  for (const [index, { name }] of voices.entries()) {
    const own = notes.filter(({ voice }) => voice === index);
    const writer = new VoiceWriter();
    for (const note of own) writer.write(note);
    if (index === voices.length - 1) writer.moveTo(Math.max(duration, last));
    last = Math.max(last, writer.clock);
    lines.push("", `voice ${inLine(name)}`, ...writer.lines);
  }
  return `${lines.join("\n")}\n`;
}

class VoiceWriter {
  readonly lines: string[] = [];
  clock: Second = 0;
  private strength = 0.8;
  private level = 1;

  write({ start, end, pitch, velocity, level, sound, bends, swells }: Note): void {
    this.moveTo(start);
    this.strength = this.set("strength", velocity, this.strength);
    this.level = this.set("level", level, this.level);
    const moments = [...new Set([...bends, ...swells].map(({ at }) => at))].sort((a, b) => a - b);
    const ends = [...moments, end];
    this.step(ends[0] ?? end, sound === "noise" ? `noise-${nameOfPitch(Math.round(pitch))}` : pitchText(pitch));
    moments.forEach((at, i) => {
      this.level = this.set("level", swells.find((turn) => turn.at === at)?.to ?? this.level, this.level);
      this.step(ends[i + 1] ?? end, bentText(bends, at));
    });
  }

  moveTo(time: Second): void {
    if (Math.abs(time - this.clock) < 0.5e-9) return;
    this.lines.push(`at ${short(time)} s`);
    this.clock = Number(short(time));
  }

  private step(end: Second, text: string): void {
    const length = short(Math.max(end - this.clock, 1e-9));
    this.lines.push(`${length} s: ${text}`);
    this.clock += Number(length);
  }

  private set(word: "strength" | "level", value: number, now: number): number {
    if (value === now) return now;
    this.lines.push(`${word} ${short(100 * value)} %`);
    return value;
  }
}

function bentText(bends: readonly Turn[], at: Second): string {
  const bend = bends.find((turn) => turn.at === at);
  return bend === undefined ? "+" : `+${pitchText(bend.to)}`;
}

function pitchText(pitch: number): string {
  return Number.isInteger(pitch) && pitch >= 0 && pitch < 132
    ? nameOfPitch(pitch)
    : `${Number(frequencyOfPitch(pitch).toPrecision(10))} Hz`;
}

function short(value: number): string {
  const text = value.toFixed(digits);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

/** A name that no part of is taken for a comment. */
function inLine(name: string): string {
  return cleanName(name.replace(/(?<=^|\s)#+(?=\s|$)/g, ""));
}
