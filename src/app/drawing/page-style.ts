/** Type sizes and rows of the drawing on a page of this size. */
import type { LayoutStyle } from "../../views/drawing-layout.ts";

/** Under this width the notes stand below the drawing and not beside the coil. */
export const narrow = 620;

export function pageStyle(
  { width, height }: { readonly width: number; readonly height: number },
  groups: LayoutStyle["groups"],
): LayoutStyle {
  const large = width >= 1500 && height >= 900;
  return {
    width,
    height,
    character: large ? 8.5 : width < narrow ? 6.9 : 7.4,
    line: large ? 20 : 18,
    row: large ? 34 : 28,
    notes: width >= narrow ? "leaders" : "elsewhere",
    groups,
  };
}
