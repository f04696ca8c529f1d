/** Wheel, drag and pinch on the drawing move its camera. */
import { useEffect, useRef, useState } from "preact/hooks";
import type { PageSize } from "../../views/drawing-fit.ts";
import { type CameraHolder, pan, zoomAbout } from "./camera.ts";

interface Held {
  readonly x: number;
  readonly y: number;
}

export function usePointerCamera(holder: CameraHolder, size: PageSize) {
  const [svg, setSvg] = useState<SVGSVGElement | null>(null);
  const pointers = useRef(new Map<number, Held>());
  const page = useRef(size);
  page.current = size;

  useEffect(() => {
    if (svg === null) return;
    const place = (event: MouseEvent): Held => {
      const { left, top } = svg.getBoundingClientRect();
      return { x: event.clientX - left, y: event.clientY - top };
    };
    // not through the framework: a wheel listener must say that it is not passive
    const wheel = (event: WheelEvent) => {
      event.preventDefault();
      const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      zoomAbout(holder, Math.exp(-event.deltaY * lines * 0.0016), place(event), page.current);
    };
    svg.addEventListener("wheel", wheel, { passive: false });
    return () => svg.removeEventListener("wheel", wheel);
  }, [holder, svg]);

  const place = (event: PointerEvent): Held => {
    const box = svg?.getBoundingClientRect();
    return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
  };
  const down = (event: PointerEvent) => {
    if (event.button !== 0 || (event.target as Element).closest(".words, .grip") !== null) return;
    svg?.setPointerCapture(event.pointerId);
    pointers.current.set(event.pointerId, place(event));
  };
  const move = (event: PointerEvent) => {
    const before = pointers.current.get(event.pointerId);
    if (before === undefined) return;
    const now = place(event);
    const other = [...pointers.current].find(([id]) => id !== event.pointerId)?.[1];
    if (other === undefined) {
      // a finger that scrolls the page past a fitted drawing does not move it
      if (event.pointerType !== "touch" || holder.fit.value === "free")
        pan(holder, { x: now.x - before.x, y: now.y - before.y });
    } else {
      const spread = (p: Held) => Math.hypot(p.x - other.x, p.y - other.y);
      const middle = { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 };
      zoomAbout(holder, spread(now) / Math.max(spread(before), 1), middle, page.current);
    }
    pointers.current.set(event.pointerId, now);
  };
  const up = (event: PointerEvent) => {
    pointers.current.delete(event.pointerId);
  };
  return { setSvg, onPointerDown: down, onPointerMove: move, onPointerUp: up, onPointerCancel: up };
}
