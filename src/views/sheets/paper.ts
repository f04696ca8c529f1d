/** Sizes of paper, and the part of them that every printer reaches. */
import type { Metre } from "../../units/si.ts";
import type { Box } from "./page.ts";

export const papers = {
  /** ISO 216. */
  a4: { width: 0.21, height: 0.297 },
  letter: { width: 8.5 * 0.0254, height: 11 * 0.0254 },
} as const;

export type PaperName = keyof typeof papers;

const margin: Metre = 0.009;
/** Of the title block along the lower edge. */
export const titleBlockHeight: Metre = 0.0135;

export interface Format {
  readonly width: Metre;
  readonly height: Metre;
  /** Inside the border, with the title block. */
  readonly frame: Box;
  /** For what the sheet shows. */
  readonly body: Box;
}

export function formatOf(paper: PaperName, { wide = false } = {}): Format {
  const { width: short, height: long } = papers[paper];
  const [width, height] = wide ? [long, short] : [short, long];
  const frame = { x: margin, y: margin, width: width - 2 * margin, height: height - 2 * margin };
  const inset = 0.005;
  return {
    width,
    height,
    frame,
    body: {
      x: frame.x + inset,
      y: frame.y + inset,
      width: frame.width - 2 * inset,
      height: frame.height - titleBlockHeight - 2 * inset,
    },
  };
}
