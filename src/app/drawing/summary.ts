/** The drawing in words, for those who hear it. */
import type { Drawing } from "../../views/drawing.ts";

export function summaryOf({ name, dimensions, shapes }: Drawing): string {
  const named = shapes.filter(({ material }) => material !== "axis" && material !== "ground" && material !== "former");
  const parts = [...new Set(named.map(({ says }) => says))].join(", ");
  return `Section through the axis of ${name}, to scale: ${parts}. ${dimensions.length} dimensions can be changed.`;
}
