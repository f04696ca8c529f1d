/** Colour on a terminal, and nothing where there is none. Colour never carries a meaning that the words beside it do not. */

export type Style = "bold" | "dim" | "stop" | "fix" | "look" | "good";

const codes: Readonly<Record<Style, readonly [number, number]>> = {
  bold: [1, 22],
  dim: [2, 22],
  stop: [31, 39],
  fix: [33, 39],
  look: [36, 39],
  good: [32, 39],
};

export type Paint = (style: Style, text: string) => string;

/** Paints with terminal codes, or leaves the text as it is. */
export function painter(colour: boolean): Paint {
  if (!colour) return (_style, text) => text;
  return (style, text) => `\u001b[${codes[style][0]}m${text}\u001b[${codes[style][1]}m`;
}
