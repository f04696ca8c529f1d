/** A song as plain immutable data: what a score, a file or a keyboard asks for, before any limit of the coil is known. */
import type { Ratio, Second } from "../units/si.ts";

/** A change during a note: of pitch [semitones, fractions are bends] or of loudness [0 to 1]. Holds until the next one. */
export interface Turn {
  readonly at: Second;
  readonly to: number;
}

export interface Note {
  /** Index into the song's voices. */
  readonly voice: number;
  readonly start: Second;
  /** Where it stops sounding, pedal included; greater than `start`. */
  readonly end: Second;
  /** Semitones on the scale where 69 is 440 Hz; may lie between keys. For a noise note only a colour. */
  readonly pitch: number;
  /** 0 to 1: how hard the key was struck. */
  readonly velocity: Ratio;
  /** 0 to 1: channel volume and expression at the start. */
  readonly level: Ratio;
  /** A tone has a pitch; a noise burst (drums) has none. */
  readonly sound: "tone" | "noise";
  /** Sounding pitch in semitones after each bend, in order of time; empty where it stays. */
  readonly bends: readonly Turn[];
  /** Channel volume and expression after each change, in order of time; empty where they stay. */
  readonly swells: readonly Turn[];
}

export interface Voice {
  /** From the file, or made from track and channel; unique in the song. */
  readonly name: string;
  /** 0 to 15, where the song came from channels. */
  readonly channel?: number;
}

export interface Song {
  readonly title?: string;
  readonly voices: readonly Voice[];
  /** In order of start. */
  readonly notes: readonly Note[];
  /** End of the last note, or of the file where that is later. */
  readonly duration: Second;
}
