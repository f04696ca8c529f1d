/** The picture at its phase. The SVG is our own text: every word in it is escaped where it is made. */
import { pictureSvg } from "../../views/pictures/svg.ts";
import { theme } from "../state/view.ts";
import { phase, shown } from "./pictures-state.ts";

export function PictureFrame() {
  const picture = shown.value;
  if (picture === undefined) return null;
  return (
    <div
      class="picture"
      dangerouslySetInnerHTML={{ __html: pictureSvg(picture, theme.value, { phase: phase.value }) }}
    />
  );
}
