/** Keys of the drawing while it has the focus itself. */
import type { Drawing } from "../../views/drawing.ts";
import type { LayoutStyle } from "../../views/drawing-layout.ts";
import { type CameraHolder, fitTo, pan, zoomAbout } from "./camera.ts";

const stride = 48;

/** Zooms, pans and fits; true where the key was one of them. */
export function cameraKey(holder: CameraHolder, key: string, drawing: Drawing, style: LayoutStyle): boolean {
  const middle = { x: style.width / 2, y: style.height / 2 };
  const actions: Readonly<Record<string, () => void>> = {
    "+": () => zoomAbout(holder, 1.25, middle, style),
    "=": () => zoomAbout(holder, 1.25, middle, style),
    "-": () => zoomAbout(holder, 0.8, middle, style),
    c: () => fitTo(holder, "coil", drawing, style),
    r: () => fitTo(holder, "room", drawing, style),
    ArrowLeft: () => pan(holder, { x: stride, y: 0 }),
    ArrowRight: () => pan(holder, { x: -stride, y: 0 }),
    ArrowUp: () => pan(holder, { x: 0, y: stride }),
    ArrowDown: () => pan(holder, { x: 0, y: -stride }),
  };
  const action = actions[key];
  action?.();
  return action !== undefined;
}
