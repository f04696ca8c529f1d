/** The one door to the reader: the text is the state, the coil is what is read from it. */
import type { Edit, Finding } from "../../catalogue/finding.ts";
import { editCoil, readCoil } from "../../readers/coil-file.ts";
import type { CoilFile } from "../../workbench/contract.ts";

/** Reads a coil file; mistakes come back as findings. */
export const readText = (text: string): CoilFile => readCoil(text);

export type EditedText = { readonly text: string } | { readonly problem: string };

const about = (finding: Finding, edits: readonly Edit[]) =>
  edits.some(
    ({ path }) => finding.path === path || finding.path.startsWith(`${path}.`) || path.startsWith(`${finding.path}.`),
  );

const words = ({ what, expected }: Finding) => (expected === undefined ? what : `${what}; expected ${expected}`);

/**
 * The text with the edits made in it, or why it cannot be: in the reader's own words.
 *
 * An edit is refused only where it makes a drawable file undrawable; a file that was broken before may be mended step by step.
 */
export function editText(text: string, edits: readonly Edit[]): EditedText {
  let edited: string;
  try {
    edited = editCoil(text, edits);
  } catch (error) {
    return { problem: error instanceof Error ? error.message : String(error) };
  }
  const after = readText(edited);
  if (after.coil !== undefined || readText(text).coil === undefined) return { text: edited };
  const finding = after.findings.find((one) => about(one, edits)) ?? after.findings[0];
  return { problem: finding === undefined ? "the file could not be read with this value" : words(finding) };
}
