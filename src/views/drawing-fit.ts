/** How large the drawing stands on its page. */
import type { Box, Drawing } from "./drawing.ts";
import type { LayoutStyle } from "./drawing-layout.ts";
import { wordsOf } from "./drawing-layout.ts";
import type { Projection } from "./drawing-path.ts";

/** Scale in page units per metre, and the point of the section plane in the middle of the page. */
export interface Camera {
  readonly scale: number;
  readonly x: number;
  readonly z: number;
}

export interface PageSize {
  readonly width: number;
  readonly height: number;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export const projectionOf = ({ scale, x, z }: Camera, { width, height }: PageSize): Projection => ({
  scale,
  originX: width / 2 - x * scale,
  originY: height / 2 + z * scale,
});

/** The camera that shows the whole box inside the margins. */
export function fitBox(box: Box, { width, height }: PageSize, margins: Margins): Camera {
  const wide = Math.max(width - margins.left - margins.right, 40);
  const high = Math.max(height - margins.top - margins.bottom, 40);
  const scale = Math.min(wide / (box.right - box.left || 1), high / (box.top - box.bottom || 1));
  return {
    scale,
    x: (box.left + box.right) / 2 - (margins.left - margins.right) / 2 / scale,
    z: (box.bottom + box.top) / 2 + (margins.top - margins.bottom) / 2 / scale,
  };
}

/** Room that the coil's dimensions need around it. */
export function coilMargins({ dimensions }: Drawing, style: LayoutStyle): Margins {
  const coil = dimensions.filter(({ group }) => group === "coil");
  const words = coil.filter(({ kind }) => kind === "note").map((d) => wordsOf(d).length * style.character);
  const rows = (side: string) => 1 + Math.max(-1, ...coil.filter((d) => d.side === side).map(({ rank }) => rank));
  return {
    left: style.notes === "leaders" ? Math.max(0, ...words) + style.row + 40 : 18,
    right: (rows("right") + 1) * style.row,
    top: (rows("above") + 1) * style.row,
    bottom: style.row * 2.2,
  };
}

/** Room that the dimensions of the surroundings need around them. */
export function roomMargins({ dimensions }: Drawing, style: LayoutStyle): Margins {
  const below = dimensions.filter(({ group, side }) => group === "room" && side === "below");
  const rows = 1 + Math.max(0, ...below.map(({ rank }) => rank));
  return { left: 16, right: style.row * 2, top: 16, bottom: style.row * (rows + 0.6) };
}
