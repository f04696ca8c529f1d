import type { Place } from "../catalogue/finding.ts";
import type { Provenances } from "../description/provenance.ts";

/**
 * The place of a path by the numbers that were read: its own, else that of the first number under it, else that of the nearest section above
 * that holds one. Undefined for an empty file.
 */
export function placeFrom(provenances: Provenances, path: string): Place | undefined {
  for (let section = path; section !== ""; section = section.slice(0, Math.max(0, section.lastIndexOf(".")))) {
    const own = provenances.get(section);
    if (own) return own.place;
    for (const [key, provenance] of provenances) if (key.startsWith(`${section}.`)) return provenance.place;
  }
  return undefined;
}
