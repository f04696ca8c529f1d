/** What a line of a tune says, before it is played. */
import type { Ratio, Second } from "../../../units/si.ts";
import type { Spot } from "./mistake.ts";

/** A length as it was written: in beats, which the tempo makes a time, or in seconds. */
export type Length = { readonly beats: number } | { readonly seconds: Second };

export interface Sound {
  readonly sound: "tone" | "noise";
  /** Semitones, 69 is 440 Hz. */
  readonly pitch: number;
  /** Where it glides to. */
  readonly to?: number;
}

/** What happens for one length. */
export type Step =
  | { readonly kind: "rest" }
  | { readonly kind: "strike"; readonly sounds: readonly Sound[] }
  /** The sound before goes on, at another pitch where `sound` is given. */
  | { readonly kind: "hold"; readonly spot: Spot; readonly sound?: Sound };

export type Statement =
  | { readonly kind: "tune"; readonly title: string }
  | { readonly kind: "voice"; readonly name: string }
  | { readonly kind: "tempo"; readonly beat: Second }
  | { readonly kind: "strength" | "level"; readonly value: Ratio }
  | { readonly kind: "gap" | "at"; readonly value: Second }
  | { readonly kind: "steps"; readonly spot: Spot; readonly length: Length; readonly steps: readonly Step[] }
  | { readonly kind: "repeat"; readonly times: number; readonly body: readonly Statement[] };
