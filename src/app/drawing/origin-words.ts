/** What is said about where a number comes from. */
import type { Provenance } from "../../description/provenance.ts";

/** `measured, as written: 110 mm ± 0.3 mm (measured)`. */
export function originWords(provenance: Provenance | undefined): string {
  if (provenance === undefined) return "";
  const { text, origin } = provenance;
  return text === undefined
    ? `${origin}, not written in the file: a documented default`
    : `${origin}, written as ${text}`;
}
