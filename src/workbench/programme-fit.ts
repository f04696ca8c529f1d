/** What is done to a song and its pulses so that it stays inside the limits, and what is said about it. */
import type { Song } from "../description/song.ts";
import {
  fitSong,
  type Load,
  type Plan,
  type ProgrammeLimits,
  planSong,
  type Reason,
  reasons,
  type Shaping,
} from "../programme/index.ts";
import type { Ratio } from "../units/si.ts";
import type { FitStep } from "./programme-contract.ts";

/** Reasons that shorter pulses do away with. */
const byOnTime: readonly Reason[] = ["onTime", "duty", "power", "junction", "capacitor", "bus"];
/** Part of the pulses that may still be shortened or left out for them. */
const accepted: Ratio = 1e-3;
/** How often a length is tried. */
const tries = 5;
/** How often all of them are halved where nothing can be sent. */
const halvings = 8;

/**
 * Octaves, fewer notes at a time, then shorter pulses throughout, so that no passage has to be shortened for itself.
 *
 * @returns song and shaping to plan with, and what was done, a sentence each; never a song without a pulse where the one given has one
 */
export function fitProgramme({
  song,
  limits,
  shaping,
  load,
}: {
  song: Song;
  limits: ProgrammeLimits;
  shaping: Shaping;
  load?: Load;
}): { readonly song: Song; readonly shaping: Shaping; readonly steps: readonly FitStep[] } {
  const fitted = fitSong(song, limits, shaping);
  const { longest, softest } = shaping.range;
  // Never below the softest: shorter pulses need not break out.
  const scaled = (share: Ratio): Shaping => ({
    ...shaping,
    range: { longest: softest + share * (longest - softest), softest },
  });
  const asked = (share: Ratio) => planSong(fitted.song, { limits, shaping: scaled(share), ...(load ? { load } : {}) });
  const fits = (share: Ratio): boolean => {
    const { schedule, course } = asked(share);
    let cut = 0;
    for (let n = 0; n < schedule.reason.length; n++) if (byOnTime.includes(reasons[schedule.reason[n]!]!)) cut++;
    return cut <= accepted * schedule.reason.length && (course.pulse.length > 0 || schedule.reason.length === 0);
  };
  const share = greatestShare(fits);
  const chosen = share < 1 ? scaled(share) : shaping;
  const sounding = neverSilent(chosen, (tried) =>
    planSong(fitted.song, { limits, shaping: tried, ...(load ? { load } : {}) }),
  );
  const steps: FitStep[] = [];
  const { octaves, folded, leftOut, cutShort } = fitted;
  const many = (count: number, what: string): string => `${count} ${what}${count === 1 ? "" : "s"}`;
  if (octaves !== 0)
    steps.push({
      kind: "transpose",
      says: `every tone is played ${many(Math.abs(octaves), "octave")} ${octaves < 0 ? "lower" : "higher"}`,
    });
  if (folded > 0)
    steps.push({
      kind: "fold",
      says: `${many(folded, "tone")} still too high ${folded === 1 ? "is" : "are"} moved down by octaves of ${folded === 1 ? "its" : "their"} own`,
    });
  if (leftOut > 0 || cutShort > 0)
    steps.push({
      kind: "thin",
      says: `where too much sounds at once ${many(leftOut, "note")} ${leftOut === 1 ? "is" : "are"} left out and ${many(cutShort, "note")} ended early`,
    });
  if (share < 1 && longest > softest)
    steps.push({
      kind: "soften",
      says: `loud pulses are made up to ${Math.round((100 * (1 - share) * (longest - softest)) / longest)} % shorter`,
    });
  if (sounding !== chosen)
    steps.push({ kind: "soften", says: "all pulses are made shorter still, since nothing could be sent otherwise" });
  if (steps.length === 0) steps.push({ kind: "nothing", says: "nothing had to be changed" });
  return { song: fitted.song, shaping: sounding, steps };
}

/** Halves every on-time until something is sent; the shaping as it is where that does not help. */
function neverSilent(shaping: Shaping, plan: (shaping: Shaping) => Plan): Shaping {
  let tried = shaping;
  for (let n = 0; n < halvings; n++) {
    const { schedule, course } = plan(tried);
    if (course.pulse.length > 0 || schedule.start.length === 0) return tried;
    const { longest, softest } = tried.range;
    tried = { ...tried, range: { longest: longest / 2, softest: softest / 2 }, least: tried.least / 2 };
  }
  return shaping;
}

/** The greatest of a few shares that fits; the smallest where none does. */
function greatestShare(fits: (share: Ratio) => boolean): Ratio {
  if (fits(1)) return 1;
  let [low, high] = [0, 1];
  for (let n = 0; n < tries; n++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return low;
}
