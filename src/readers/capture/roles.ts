/** What a channel was probably connected to, from its name. Common words of the trade; no source. */
import type { ChannelRole } from "../../description/record.ts";

/** The first that fits decides; words stand alone or beside digits and underscores. */
const words: readonly (readonly [ChannelRole, RegExp])[] = [
  ["gate", /interrupt|\bint\b|enable|\ben\b|\bgate|burst|on.?time|\btrig(ger)?\b|unterbrecher/],
  ["bridgeOutput", /bridge|brücke|half.?bridge|\bswitch(ing)? ?node|\bv?out(put)?\b|inverter/],
  ["bus", /\bv?bus\b|dc.?link|d\.?c\.? ?bus|\brail\b|zwischenkreis/],
  ["primaryCurrent", /prim|\bi ?p(ri)?\b|tank ?current|\bct\b|current|strom|\brogowski/],
  ["pickupLoop", /loop|pick.?up|antenna|\bant\b|aerial|field|probe ?wire|sense ?wire|schleife|antenne/],
  ["audio", /\bmic(rophone)?\b|audio|sound|acoustic|\bleft\b|\bright\b/],
];

export function guessedRole({ name, unit }: { name: string; unit: string }): { role: ChannelRole; because: string } {
  const plain = name.toLowerCase().replace(/[_\-.]+|(?<=[a-z])(?=\d)/g, " ");
  // The gate of one switch follows the carrier, not the interrupter.
  if (/\bgate\b.*\b(?:upper|lower|high|low|hs|ls|[a-d])\b|\b(?:upper|lower|high|low|hs|ls)\b.*\bgate\b/.test(plain))
    return { role: "unknown", because: "it is the gate of one switch, by its name" };
  for (const [role, pattern] of words) {
    const match = pattern.exec(plain);
    if (match !== null) return { role, because: `\`${match[0].trim()}\` in its name` };
  }
  if (unit === "A") return { role: "primaryCurrent", because: "its unit is ampere" };
  return { role: "unknown", because: "its name says nothing of what it was connected to" };
}
