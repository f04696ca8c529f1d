/** Lines that fit a terminal. Every character that the house writes takes one column. */

/** Columns of a text. */
export const columns = (text: string): number => [...text].length;

/** A unit, with what a sentence may put behind it: it stays with the number before it. */
const unit = /^(?:[pnµmkMG]?(?:s|V|A|W|J|Hz|m|F|H|Ω|T)|%|°C|K|mm²|kV\/cm|V\/µs|A\/mm²|A²s|W\/m²)[.,;:)]*$/;

/** Words of a text; a number and its unit are one. */
function wordsOf(text: string): readonly string[] {
  const words: string[] = [];
  for (const word of text.split(" ")) {
    const before = words.at(-1);
    if (before !== undefined && /\d$/.test(before) && unit.test(word)) words[words.length - 1] = `${before} ${word}`;
    else words.push(word);
  }
  return words;
}

/**
 * Breaks a text between words, never between a number and its unit.
 * @param width   of the whole line, indents included
 * @param first   put before the first line
 * @param indent  put before each further line
 */
export function wrap(
  text: string,
  { width, first = "", indent = first }: { width: number; first?: string; indent?: string },
): string {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of wordsOf(text)) {
    const candidate = empty ? line + word : `${line} ${word}`;
    if (!empty && columns(candidate) > width) {
      lines.push(line);
      line = indent + word;
    } else {
      line = candidate;
    }
    empty = false;
  }
  lines.push(line);
  return lines.join("\n");
}

/** The text with spaces after it up to a width; a longer one is left as it is. */
export const padded = (text: string, width: number): string => text + " ".repeat(Math.max(0, width - columns(text)));

/** The text with spaces before it up to a width. */
export const paddedLeft = (text: string, width: number): string =>
  " ".repeat(Math.max(0, width - columns(text))) + text;

/** The text cut to a width, with a mark where something is missing. */
export const cut = (text: string, width: number): string =>
  columns(text) <= width ? text : `${[...text].slice(0, Math.max(0, width - 1)).join("")}…`;
