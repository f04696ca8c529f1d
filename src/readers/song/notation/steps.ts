/** A line of sounds: `1/2: A4 B4 + . C5&E5`. */
import type { Line } from "./line.ts";
import { type Mistakes, quoted, type Spot } from "./mistake.ts";
import { noteNamePattern, pitchOfFrequency, pitchOfName } from "./pitch.ts";
import type { Length, Sound, Statement, Step } from "./statement.ts";

const soundExample = "a note such as `A4`, `C#5` or `440 Hz`, `noise`, `.` for a rest or `+` to hold";
const lowest = 1;
const highest = 20_000;
const longest = 86_400;

/** Reads from the length on; undefined where the line holds mistakes. */
export function readSteps(line: Line, mistakes: Mistakes): Statement | undefined {
  const from = line.column;
  const length = readLength(line, mistakes);
  if (length === undefined) return undefined;
  if (line.take(/^:/) === undefined) {
    mistakes.add(line.spot(), {
      rule: "tune-length",
      what: line.done ? "the length is not followed by a colon" : `${quoted(line.word())} where the colon belongs`,
      expected: "a length in beats or with a unit, a colon, then sounds: `1/2: A4 B4`, `250 ms: A4`",
    });
    return undefined;
  }
  const spot = line.spot(from);
  const steps: Step[] = [];
  while (!line.done) {
    const step = readStep(line, mistakes);
    if (step === undefined) return undefined;
    steps.push(step);
  }
  if (steps.length > 0) return { kind: "steps", spot, length, steps };
  mistakes.add(spot, { rule: "tune-sound", what: "no sound follows the colon", expected: soundExample });
  return undefined;
}

function readLength(line: Line, mistakes: Mistakes): Length | undefined {
  const from = line.column;
  const value = line.takeNumber() ?? Number.NaN;
  const unit = line.take(/^(ms|s)(?=[\s:]|$)/)?.[1];
  if (value > 0 && value <= longest)
    return unit === undefined ? { beats: value } : { seconds: unit === "ms" ? value / 1000 : value };
  mistakes.add(line.spot(from), {
    rule: "tune-length",
    what: `a length of ${value}`,
    expected: `a length of more than 0 and at most ${longest}`,
  });
  return undefined;
}

function readStep(line: Line, mistakes: Mistakes): Step | undefined {
  const from = line.column;
  if (line.take(/^\.(?=\s|$)/) !== undefined) return { kind: "rest" };
  if (line.take(/^\+(?=\s|$)/) !== undefined) return { kind: "hold", spot: line.spot(from) };
  if (line.take(/^\+/) !== undefined) {
    const sound = readSound(line, mistakes);
    if (sound === undefined) return undefined;
    if (sound.sound === "tone") return { kind: "hold", spot: line.spot(from), sound };
    mistakes.add(line.spot(from), {
      rule: "tune-hold",
      what: "`+` goes over into noise",
      expected: "`+` with a pitch, such as `+B4`; noise is struck anew",
    });
    return undefined;
  }
  const sounds: Sound[] = [];
  do {
    const sound = readSound(line, mistakes);
    if (sound === undefined) return undefined;
    sounds.push(sound);
  } while (line.take(/^&/) !== undefined);
  return { kind: "strike", sounds };
}

function readSound(line: Line, mistakes: Mistakes): Sound | undefined {
  const noise = line.take(/^noise(?=[-\s&]|$)-?/);
  if (noise !== undefined) {
    if (!noise[0].includes("-")) return { sound: "noise", pitch: 60 };
    const colour = readPitch(line, mistakes);
    return colour === undefined ? undefined : { sound: "noise", pitch: colour };
  }
  const pitch = readPitch(line, mistakes);
  if (pitch === undefined) return undefined;
  if (line.take(/^to(?=\s|$)/) === undefined) return { sound: "tone", pitch };
  const to = readPitch(line, mistakes);
  return to === undefined ? undefined : { sound: "tone", pitch, to };
}

function readPitch(line: Line, mistakes: Mistakes): number | undefined {
  const from = line.column;
  const named = line.take(noteNamePattern);
  if (named !== undefined) return pitchOfName(named);
  const wordHere = line.word();
  const unknownSpot = line.spot();
  const value = line.takeNumber();
  const unit = value === undefined ? undefined : line.take(/^(Hz|kHz)(?=[\s&]|$)/)?.[1];
  if (value === undefined || unit === undefined) return unknown(unknownSpot, wordHere, mistakes);
  const frequency = unit === "kHz" ? 1000 * value : value;
  if (frequency >= lowest && frequency <= highest) return pitchOfFrequency(frequency);
  mistakes.add(line.spot(from), {
    rule: "tune-pitch",
    what: `a tone of ${frequency} Hz`,
    expected: `a frequency from ${lowest} Hz to ${highest / 1000} kHz`,
  });
  return undefined;
}

function unknown(spot: Spot, word: string, mistakes: Mistakes): undefined {
  const capital = word.charAt(0).toUpperCase() + word.slice(1);
  const named = noteNamePattern.test(capital);
  mistakes.add(spot, {
    rule: "tune-sound",
    what: word === "" ? "a sound is missing at the end of the line" : `${quoted(word)} is no sound`,
    expected: soundExample,
    youCan: named
      ? [`write \`${capital}\`: letters of notes are capitals`]
      : /^[A-G][#♯b♭]?$/.test(capital)
        ? [`write the octave too: \`${capital}4\` lies around middle C`]
        : /^\d/.test(word)
          ? ["put the unit behind a frequency: `440 Hz`"]
          : [],
  });
}
