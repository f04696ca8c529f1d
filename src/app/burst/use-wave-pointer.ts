/** The hand on the waveforms: wheel and pinch zoom, a drag pans, a press places the active cursor. */
import type { RefObject } from "preact";
import { useEffect } from "preact/hooks";
import type { Scale } from "../../views/plots.ts";
import { active, pan, placeCursor, zoom } from "./time-window.ts";

/** A pointer that moved less than this was a press [CSS pixels]. */
const still = 4;

/** What the hand moves, in the units of the axis. */
export interface Hand {
  readonly pan: (by: number) => void;
  readonly zoom: (factor: number, about: number) => void;
  readonly place: (at: number, isOther: boolean) => void;
}

const burstHand: Hand = { pan, zoom, place: (at, isOther) => placeCursor(isOther ? "B" : active.peek(), at) };

/** @param hand  always the same object */
export function useWavePointer(
  ref: RefObject<HTMLElement | null>,
  scale: RefObject<Scale | null>,
  { pan, zoom, place: placeAt }: Hand = burstHand,
): void {
  useEffect(() => {
    const element = ref.current;
    if (element === null) return;
    const down = new Map<number, number>();
    let travelled = 0;
    const place = (clientX: number) => clientX - element.getBoundingClientRect().left;
    const timeAt = (clientX: number) => scale.current?.fromPage(place(clientX)) ?? 0;
    const perPixel = () => (scale.current ? scale.current.fromPage(1) - scale.current.fromPage(0) : 0);

    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        pan((event.deltaX || event.deltaY) * perPixel());
      } else zoom(1.0016 ** -event.deltaY, timeAt(event.clientX));
    };
    const onDown = (event: PointerEvent) => {
      if (event.button !== 0) return;
      element.setPointerCapture(event.pointerId);
      down.set(event.pointerId, event.clientX);
      travelled = down.size > 1 ? still : 0;
    };
    const onMove = (event: PointerEvent) => {
      const before = down.get(event.pointerId);
      if (before === undefined) return;
      const other = [...down].find(([id]) => id !== event.pointerId)?.[1];
      down.set(event.pointerId, event.clientX);
      travelled += Math.abs(event.clientX - before);
      if (travelled < still) return;
      if (other === undefined) pan((before - event.clientX) * perPixel());
      else {
        const apart = Math.max(8, Math.abs(event.clientX - other));
        zoom(apart / Math.max(8, Math.abs(before - other)), timeAt((event.clientX + other) / 2));
      }
    };
    const onUp = (event: PointerEvent) => {
      if (!down.delete(event.pointerId) || travelled >= still || event.type === "pointercancel") return;
      placeAt(timeAt(event.clientX), event.shiftKey);
    };
    element.addEventListener("wheel", onWheel, { passive: false });
    element.addEventListener("pointerdown", onDown);
    element.addEventListener("pointermove", onMove);
    element.addEventListener("pointerup", onUp);
    element.addEventListener("pointercancel", onUp);
    return () => {
      element.removeEventListener("wheel", onWheel);
      element.removeEventListener("pointerdown", onDown);
      element.removeEventListener("pointermove", onMove);
      element.removeEventListener("pointerup", onUp);
      element.removeEventListener("pointercancel", onUp);
    };
  }, [ref, scale, pan, zoom, placeAt]);
}
