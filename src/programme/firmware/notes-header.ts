/** `notes.h`: the period of every MIDI key. */
import { fractionsPerTick, ticksPerSecond } from "./ticks.ts";

/**
 * Equal temperament on A4 = 440 Hz, key 69; a semitone is the twelfth root of two.
 * @source iso-16, midi-1
 */
export function notesHeader(): string {
  const periods = Array.from({ length: 128 }, (_, key) =>
    Math.round((fractionsPerTick * ticksPerSecond) / (440 * 2 ** ((key - 69) / 12))),
  );
  const rows = Array.from({ length: 16 }, (_, row) => `  ${periods.slice(8 * row, 8 * row + 8).join(", ")},`);
  return [
    "/* Period of each MIDI key in 1/4096 ticks: equal temperament, key 69 at 440 Hz. */",
    "#ifndef NOTES_H",
    "#define NOTES_H",
    "",
    "static const uint32_t note_period[128] PROGMEM = {",
    ...rows,
    "};",
    "",
    "#endif",
    "",
  ].join("\n");
}
