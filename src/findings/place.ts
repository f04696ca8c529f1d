import type { Place } from "../catalogue/finding.ts";
import type { CoilFile } from "../description/coil-file.ts";

/** The place of a path in the text; where it is not written, that of the nearest section above it that is. */
export function placeOf({ places, provenances }: CoilFile, path: string): Place | undefined {
  for (let section = path; section !== ""; section = section.slice(0, Math.max(0, section.lastIndexOf(".")))) {
    const place = places?.get(section) ?? provenances.get(section)?.place;
    if (place) return place;
  }
  return undefined;
}
