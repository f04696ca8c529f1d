/** One camera per drawing on screen: fits, zooms about a point, pans. */
import { type Signal, signal } from "@preact/signals";
import type { Drawing } from "../../views/drawing.ts";
import { type Camera, coilMargins, fitBox, type Margins, type PageSize, roomMargins } from "../../views/drawing-fit.ts";
import type { LayoutStyle } from "../../views/drawing-layout.ts";
import { frameInset } from "./sheet-frame.tsx";

export type Fit = "coil" | "room" | "free";

export interface CameraHolder {
  readonly camera: Signal<Camera | undefined>;
  readonly fit: Signal<Fit>;
}

export const holdCamera = (): CameraHolder => ({ camera: signal(undefined), fit: signal("coil") });

/** Cameras of the rooms' drawings; they stay where they were when a room is left. */
export const mainCamera = holdCamera();
export const sideCamera = holdCamera();

const narrowest = 20;
const widest = 60_000;

/** The title block and the scale bar stand in the foot of the sheet. */
const footHeight = 22;

const widened = ({ left, right, top, bottom }: Margins): Margins => ({
  left: left + frameInset,
  right: right + frameInset,
  top: top + frameInset,
  bottom: bottom + frameInset + footHeight,
});

/** Shows all of the coil with its dimensions, or all of the room. */
export function fitTo(holder: CameraHolder, fit: "coil" | "room", drawing: Drawing, style: LayoutStyle): void {
  holder.fit.value = fit;
  const box = fit === "coil" ? drawing.coilBox : drawing.roomBox;
  const needed = fit === "coil" ? coilMargins(drawing, style) : roomMargins(drawing, style);
  holder.camera.value = fitBox(box, style, widened(needed));
}

/** Zooms by a factor so that the page point stays over the same place. */
export function zoomAbout(holder: CameraHolder, factor: number, at: { x: number; y: number }, size: PageSize): void {
  const camera = holder.camera.value;
  if (camera === undefined) return;
  const scale = Math.min(Math.max(camera.scale * factor, narrowest), widest);
  const offX = at.x - size.width / 2;
  const offY = at.y - size.height / 2;
  const shift = 1 / camera.scale - 1 / scale;
  holder.fit.value = "free";
  holder.camera.value = { scale, x: camera.x + offX * shift, z: camera.z - offY * shift };
}

/** Moves the drawing by page distances. */
export function pan(holder: CameraHolder, by: { x: number; y: number }): void {
  const camera = holder.camera.value;
  if (camera === undefined) return;
  holder.fit.value = "free";
  holder.camera.value = { ...camera, x: camera.x - by.x / camera.scale, z: camera.z + by.y / camera.scale };
}
