/** One cursor over all tracks: pulled by its flag, or moved by keys. */
import type { Scale } from "../../views/plots.ts";
import {
  active,
  burstEnd,
  type CursorName,
  cursors,
  nudgeCursor,
  pan,
  placeCursor,
  showHalfCycle,
  showWhole,
  span,
  zoom,
} from "./time-window.ts";

interface Properties {
  readonly name: CursorName;
  readonly x: Scale;
  /** Left edge of the tracks on the page. */
  readonly left: number;
  readonly height: number;
  /** What it reads, in words. */
  readonly says: string;
}

function keyAction(name: CursorName, { key, shiftKey }: KeyboardEvent): (() => void) | undefined {
  const { from, to } = span.peek();
  const step = ((to - from) / 100) * (shiftKey ? 0.1 : 1);
  const at = cursors.peek()[name];
  const keys: Readonly<Record<string, () => void>> = {
    ArrowRight: () => nudgeCursor(name, step),
    ArrowUp: () => nudgeCursor(name, step),
    ArrowLeft: () => nudgeCursor(name, -step),
    ArrowDown: () => nudgeCursor(name, -step),
    PageUp: () => nudgeCursor(name, 10 * step),
    PageDown: () => nudgeCursor(name, -10 * step),
    Home: () => nudgeCursor(name, -burstEnd.peek()),
    End: () => nudgeCursor(name, burstEnd.peek()),
    "+": () => zoom(1.5, at),
    "=": () => zoom(1.5, at),
    "-": () => zoom(1 / 1.5, at),
    "0": showWhole,
    h: showHalfCycle,
    ",": () => pan((from - to) / 4),
    ".": () => pan((to - from) / 4),
  };
  return keys[key.length === 1 ? key.toLowerCase() : key];
}

export function CursorHandle({ name, x, left, height, says }: Properties) {
  const at = cursors.value[name];
  const page = x.toPage(at);
  const inView = at >= x.low && at <= x.high;
  return (
    <div
      class={`cursor cursor-${name}`}
      data-active={active.value === name || undefined}
      data-away={inView ? undefined : at < x.low ? "before" : "after"}
      style={{ left: `${Math.min(Math.max(page, left), x.toPage(x.high))}px`, height: `${height}px` }}
      role="slider"
      tabIndex={0}
      aria-label={`Cursor ${name}`}
      aria-valuemin={0}
      aria-valuemax={Number((burstEnd.value * 1e6).toFixed(3))}
      aria-valuenow={Number((at * 1e6).toFixed(3))}
      aria-valuetext={says}
      onFocus={() => {
        active.value = name;
      }}
      onKeyDown={(event) => {
        if (event.ctrlKey || event.metaKey || event.altKey) return;
        const act = keyAction(name, event);
        if (act === undefined) return;
        event.preventDefault();
        active.value = name;
        act();
      }}
      onPointerDown={(event) => {
        event.stopPropagation();
        event.currentTarget.setPointerCapture(event.pointerId);
        active.value = name;
      }}
      onPointerMove={(event) => {
        if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
        const edge = event.currentTarget.parentElement?.getBoundingClientRect().left ?? 0;
        placeCursor(name, x.fromPage(event.clientX - edge));
      }}
    >
      <span class="flag" aria-hidden="true">
        {name}
      </span>
    </div>
  );
}
