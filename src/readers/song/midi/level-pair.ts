/** The two settings, channel volume and expression, whose product comes nearest to a level. */
import type { Ratio } from "../../../units/si.ts";

export interface LevelPair {
  /** 0 to 127. */
  readonly volume: number;
  readonly expression: number;
}

/** Levels that came from a MIDI file are met exactly; any other from 0 to 1 within 0.4 %, most far nearer. */
export function levelPair(level: Ratio): LevelPair {
  let best: LevelPair = { volume: 127, expression: Math.round(level * 127) };
  let least = Number.POSITIVE_INFINITY;
  for (let volume = 127; volume >= 1; volume--) {
    const expression = Math.min(127, Math.round((level * 127 * 127) / volume));
    const error = Math.abs((volume / 127) * (expression / 127) - level);
    // A pair is worth a change only where it is clearly nearer, not by a rounding of the last digit.
    if (error < least - 1e-12) {
      best = { volume, expression };
      least = error;
    }
  }
  return best;
}
