/** The one door to the reader: the text is the state, the coil is what is read from it. */
import type { Edit, Finding } from "../../catalogue/finding.ts";
import { editCoil, readCoil } from "../../readers/coil-file.ts";
import type { CoilFile } from "../../workbench/contract.ts";

const lately = new Map<string, CoilFile>();
const kept = 4;

/** Reads a coil file; mistakes come back as findings. A drag reads every text twice, so the last few are kept. */
export function readText(text: string): CoilFile {
  const file = lately.get(text) ?? readCoil(text);
  lately.delete(text);
  lately.set(text, file);
  if (lately.size > kept) lately.delete(lately.keys().next().value ?? "");
  return file;
}

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
  const edited = editCoil(text, edits);
  if ("findings" in edited) return { problem: edited.findings.map(words).join("; ") };
  const after = readText(edited.text);
  if (after.coil !== undefined || readText(text).coil === undefined) return edited;
  const finding = after.findings.find((one) => about(one, edits)) ?? after.findings[0];
  return { problem: finding === undefined ? "the file could not be read with this value" : words(finding) };
}
