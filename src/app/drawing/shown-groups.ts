/** Which dimensions are worth showing from this far away. */
import type { Dimension, Drawing } from "../../views/drawing.ts";
import type { Projection } from "../../views/drawing-path.ts";
import type { Fit } from "./camera.ts";

/** A coil lower than this on the page would be buried under its own dimensions [px]. */
const tooSmall = 190;

export function shownGroups(fit: Fit, { coilBox }: Drawing, projection: Projection | undefined): Dimension["group"][] {
  if (fit === "coil") return ["coil"];
  const far = projection !== undefined && (coilBox.top - coilBox.bottom) * projection.scale < tooSmall;
  return far ? ["room"] : ["coil", "room"];
}
