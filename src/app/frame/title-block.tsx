/** The corner block of the drawing: what it shows, how large, from what. */
import type { Camera } from "../../views/drawing-fit.ts";
import { drawable } from "../state/document.ts";

/** CSS pixels in a metre: a pixel is 1/96 in by definition. */
const pixelsPerMetre = 96 / 0.0254;

/** The nearest two digits of a scale, as `1 : 4.8`. */
function scaleWords({ scale }: Camera): string {
  const ratio = pixelsPerMetre / scale;
  return ratio >= 1 ? `1 : ${Number(ratio.toPrecision(2))}` : `${Number((1 / ratio).toPrecision(2))} : 1`;
}

export function TitleBlock({ camera }: { readonly camera: Camera | undefined }) {
  return (
    <dl class="title-block">
      <div>
        <dt>Coil</dt>
        <dd>{drawable.value?.coil.name}</dd>
      </div>
      <div>
        <dt>View</dt>
        <dd>section through the axis</dd>
      </div>
      <div>
        <dt>Scale</dt>
        <dd>{camera && scaleWords(camera)}</dd>
      </div>
    </dl>
  );
}
