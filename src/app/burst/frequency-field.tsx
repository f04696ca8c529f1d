/** A plot over frequency that is read by pointer and by key. */
import type { ComponentChildren, RefObject } from "preact";
import type { layPlot } from "../../views/plots.ts";
import { PlotFrame } from "../resonance/plot-frame.tsx";

interface Properties {
  readonly field: RefObject<HTMLDivElement | null>;
  readonly plot: ReturnType<typeof layPlot>;
  readonly width: number;
  readonly height: number;
  readonly label: string;
  readonly limits: readonly [low: number, high: number];
  /** Where it is read [Hz], and what is read there in words. */
  readonly at: number;
  readonly reading: string;
  /** Undefined where the pointer has left. */
  readonly onRead: (at: number | undefined) => void;
  readonly yText: (tick: number) => string;
  readonly yUnit: string;
  readonly children: ComponentChildren;
}

export function FrequencyField({
  field,
  plot,
  width,
  height,
  label,
  limits: [low, high],
  at,
  reading,
  onRead,
  yText,
  yUnit,
  children,
}: Properties) {
  const move = (to: number) => onRead(Math.min(Math.max(to, low), high));
  return (
    <div
      ref={field}
      class="plot-field"
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={Math.round(low)}
      aria-valuemax={Math.round(high)}
      aria-valuenow={Math.round(at)}
      aria-valuetext={reading}
      onPointerMove={(event) => move(plot.x.fromPage(event.clientX - event.currentTarget.getBoundingClientRect().left))}
      onPointerLeave={() => onRead(undefined)}
      onKeyDown={(event) => {
        const step = ((high - low) / 100) * (event.shiftKey ? 0.1 : 1);
        const by = { ArrowRight: step, ArrowUp: step, ArrowLeft: -step, ArrowDown: -step }[event.key];
        if (by === undefined) return;
        event.preventDefault();
        move(at + by);
      }}
    >
      <PlotFrame
        plot={plot}
        width={width}
        height={height}
        xText={(tick) => String(Number((tick / 1e3).toPrecision(6)))}
        yText={yText}
        xLabel="frequency, kHz"
        yUnit={yUnit}
      >
        {children}
      </PlotFrame>
    </div>
  );
}
