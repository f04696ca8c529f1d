/** Brings the place of a finding to the focus: on the drawing where it is drawn, else at its line in the text. */
import type { Finding } from "../../catalogue/finding.ts";
import { drawing } from "../../views/drawing.ts";
import { drawable } from "../state/document.ts";
import { room, sought, textShown } from "../state/view.ts";

export const placeWords = ({ path, place }: Pick<Finding, "path" | "place">) =>
  place === undefined ? path || "the file" : `${path || "the file"}, line ${place.line}`;

/** Seeks a path; `line` helps where the drawing has no such dimension. */
export function jumpTo(path: string, line?: number): void {
  const table = drawable.value;
  const onDrawing =
    table !== undefined &&
    drawing(table.coil).dimensions.some((one) => path !== "" && (one.path === path || one.path.startsWith(`${path}.`)));
  if (!onDrawing) textShown.value = true;
  // all dimensions are on the drawing of the first room
  else if (room.value !== "shape") location.hash = "#shape";
  sought.value = { path, line };
}
