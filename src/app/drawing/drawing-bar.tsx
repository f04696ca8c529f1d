/** Over the sheet: fits and zoom on one side, the painted layers with their legends on the other. */
import type { Drawing } from "../../views/drawing.ts";
import type { LayoutStyle } from "../../views/drawing-layout.ts";
import { type CameraHolder, fitTo, zoomAbout } from "./camera.ts";
import { LayerSwitches } from "./layer-switches.tsx";

interface Properties {
  readonly holder: CameraHolder;
  readonly drawing: Drawing;
  readonly style: LayoutStyle;
  readonly layers: boolean;
}

export function DrawingBar({ holder, drawing, style, layers }: Properties) {
  const middle = { x: style.width / 2, y: style.height / 2 };
  const fit = holder.fit.value;
  return (
    <div class="drawing-bar">
      <fieldset class="cluster" aria-label="View of the drawing">
        <button type="button" aria-pressed={fit === "coil"} onClick={() => fitTo(holder, "coil", drawing, style)}>
          Coil
        </button>
        <button type="button" aria-pressed={fit === "room"} onClick={() => fitTo(holder, "room", drawing, style)}>
          Room
        </button>
        <button
          type="button"
          class="square"
          aria-label="Zoom out"
          onClick={() => zoomAbout(holder, 0.8, middle, style)}
        >
          −
        </button>
        <button
          type="button"
          class="square"
          aria-label="Zoom in"
          onClick={() => zoomAbout(holder, 1.25, middle, style)}
        >
          +
        </button>
      </fieldset>
      {layers && <LayerSwitches />}
    </div>
  );
}
