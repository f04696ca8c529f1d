/** The computer's keyboard as a piano of two rows, while its switch is on. */
import { signal } from "@preact/signals";
import { allUp, strike } from "./keys.ts";

/** One row: long keys by their place on the keyboard, and the short ones between them. */
interface Row {
  readonly long: readonly (readonly [code: string, cap: string])[];
  /** Behind the long key of that number, from 0. */
  readonly short: readonly (readonly [code: string, cap: string, behind: number])[];
  /** Octaves above the lower row. */
  readonly octave: number;
}

const letters = (caps: string): (readonly [string, string])[] => [...caps].map((cap) => [`Key${cap}`, cap] as const);

export const rows: readonly Row[] = [
  {
    octave: 1,
    long: letters("QWERTYUIOP"),
    short: [
      ["Digit2", "2", 0],
      ["Digit3", "3", 1],
      ["Digit5", "5", 3],
      ["Digit6", "6", 4],
      ["Digit7", "7", 5],
      ["Digit9", "9", 7],
      ["Digit0", "0", 8],
    ],
  },
  {
    octave: 0,
    long: [...letters("ZXCVBNM"), ["Comma", ","], ["Period", "."], ["Slash", "/"]],
    short: [
      ["KeyS", "S", 0],
      ["KeyD", "D", 1],
      ["KeyG", "G", 3],
      ["KeyH", "H", 4],
      ["KeyJ", "J", 5],
      ["KeyL", "L", 7],
      ["Semicolon", ";", 8],
    ],
  },
];

/** Semitones of the long keys above the C that a row begins with. */
const scale = [0, 2, 4, 5, 7, 9, 11] as const;
export const longAt = (place: number): number => (scale[place % 7] ?? 0) + 12 * Math.floor(place / 7);

const semitones = new Map<string, number>(
  rows.flatMap(({ octave, long, short }) => [
    ...long.map(([code], place) => [code, 12 * octave + longAt(place)] as const),
    ...short.map(([code, , behind]) => [code, 12 * octave + longAt(behind) + 1] as const),
  ]),
);

/** Whether the keyboard plays. */
export const keyboardOn = signal(false);
/** Key of the lowest C. */
export const lowest = signal(36);
/** How hard its keys are struck, 0 to 1. */
const velocity = 0.8;

const down = new Map<string, number>();

/** Lets the keyboard play, or not. */
export function switchKeyboard(isOn: boolean): void {
  keyboardOn.value = isOn;
  down.clear();
  allUp();
}

/** Moves both rows by octaves. */
export function moveOctave(by: number): void {
  lowest.value = Math.min(84, Math.max(12, lowest.peek() + 12 * by));
}

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof Element &&
  target.closest("textarea, select, dialog, input:not([type=range], [type=checkbox])") !== null;

function onDown(event: KeyboardEvent): void {
  if (!keyboardOn.peek() || event.ctrlKey || event.metaKey || event.altKey || isTyping(event.target)) return;
  const semitone = semitones.get(event.code);
  if (semitone === undefined) return;
  // Nothing else may hear it: the letters are keys of other things too.
  event.preventDefault();
  event.stopPropagation();
  if (event.repeat || down.has(event.code)) return;
  const key = lowest.peek() + semitone;
  down.set(event.code, key);
  strike({ key, velocity });
}

function onUp({ code }: KeyboardEvent): void {
  const key = down.get(code);
  if (key === undefined) return;
  down.delete(code);
  strike({ key, velocity: 0 });
}

/** Listens from now on; a key that goes up elsewhere must not hang. Called once. */
export function listenForComputerKeys(): void {
  window.addEventListener("keydown", onDown, true);
  window.addEventListener("keyup", onUp, true);
  window.addEventListener("blur", () => {
    down.clear();
    allUp();
  });
}
