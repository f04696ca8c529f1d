/** Fits the drawing again when its page changes size or another coil comes on the table; never while somebody works on it. */
import { useEffect, useRef } from "preact/hooks";
import type { Drawing } from "../../views/drawing.ts";
import type { LayoutStyle } from "../../views/drawing-layout.ts";
import { type CameraHolder, fitTo } from "./camera.ts";

export function useFitting(holder: CameraHolder, drawing: Drawing | undefined, style: LayoutStyle): void {
  const lastName = useRef(drawing?.name);
  const { width, height } = style;
  const name = drawing?.name;
  // not when the drawing changes: one that moves under the hand cannot be worked on
  useEffect(() => {
    if (drawing === undefined || width === 0) return;
    const another = lastName.current !== name;
    lastName.current = name;
    const fit = holder.fit.peek();
    if (another || fit !== "free" || holder.camera.peek() === undefined) {
      fitTo(holder, fit === "room" ? "room" : "coil", drawing, style);
    }
  }, [width, height, name]);
}
