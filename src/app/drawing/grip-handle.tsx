/** A grip that is pulled with a pointer. Its keys live on the words of its dimension, so that there is one stop for the Tab key. */
import { useCallback, useRef } from "preact/hooks";
import type { Dimension, Grip } from "../../views/drawing.ts";
import { type Projection, toPage } from "../../views/drawing-path.ts";
import { dropPreview } from "../state/document.ts";
import { commitPull, previewPull } from "./change-dimension.ts";

interface Pull {
  readonly dimension: Dimension;
  readonly grip: Grip;
  readonly startX: number;
  readonly startY: number;
  readonly scale: number;
  value: number;
}

interface Properties {
  readonly dimension: Dimension;
  readonly grip: Grip;
  readonly projection: Projection;
  readonly held: boolean;
}

export function GripHandle({ dimension, grip, projection, held }: Properties) {
  const pull = useRef<Pull | undefined>(undefined);
  const at = toPage(grip.at, projection);
  const across = Math.abs(grip.direction.x) > Math.abs(grip.direction.z);

  // one function for the life of the grip, so that it can be taken off again
  const giveUp = useCallback((event: KeyboardEvent) => {
    if (event.key !== "Escape" || pull.current === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    pull.current = undefined;
    dropPreview();
    removeEventListener("keydown", giveUp, true);
  }, []);
  const start = (event: PointerEvent) => {
    if (event.button !== 0) return;
    event.stopPropagation();
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
    pull.current = {
      dimension,
      grip,
      startX: event.clientX,
      startY: event.clientY,
      scale: projection.scale,
      value: dimension.value,
    };
    document.querySelector<SVGElement>(`[data-path="${dimension.path}"]`)?.focus();
    addEventListener("keydown", giveUp, true);
  };
  const move = (event: PointerEvent) => {
    const now = pull.current;
    if (now === undefined) return;
    event.stopPropagation();
    const along =
      ((event.clientX - now.startX) * now.grip.direction.x - (event.clientY - now.startY) * now.grip.direction.z) /
      now.scale;
    now.value = previewPull(now.dimension, now.dimension.value + now.grip.gain * along, event.shiftKey);
  };
  const end = (commit: boolean) => {
    const now = pull.current;
    pull.current = undefined;
    removeEventListener("keydown", giveUp, true);
    if (now === undefined) return;
    if (commit) commitPull(now.dimension, now.value);
    else dropPreview();
  };
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: keys go to the words of the dimension
    <g
      class={`grip ${across ? "across" : "upright"}`}
      data-grip={dimension.path}
      data-held={held || undefined}
      transform={`translate(${at.x.toFixed(1)} ${at.y.toFixed(1)})`}
      aria-hidden="true"
      onPointerDown={start}
      onPointerMove={move}
      onPointerUp={() => end(true)}
      onPointerCancel={() => end(false)}
    >
      <circle class="reach" r={14} />
      <path class="knob" d="M0 -5.5L5.5 0L0 5.5L-5.5 0Z" />
    </g>
  );
}
