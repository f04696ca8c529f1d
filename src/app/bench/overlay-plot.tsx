/** The record in time over its prediction, the residual beneath; zoomed and read by hand or keys as the burst's waveforms are. */
import { useComputed, useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { axisNumbers } from "../../views/axis-numbers.ts";
import { type LaidLine, layOverlay, type Overlay, overlaySpan, type Prediction } from "../../views/match-plot.ts";
import type { Scale } from "../../views/plots.ts";
import { type Span, sampleAt } from "../../views/waveform-reduce.ts";
import { useWavePointer } from "../burst/use-wave-pointer.ts";
import { useSize } from "../drawing/use-size.ts";

function Line({ line, kind, left, right }: { line: LaidLine; kind: string; left: number; right: number }) {
  const shown = axisNumbers(line.y.ticks, line.unit, line.y.high);
  return (
    <g>
      {line.y.ticks.map((tick, n) => (
        <g key={tick}>
          <path class={tick === 0 ? "zero" : "hair"} d={`M${left} ${line.y.toPage(tick)}H${right}`} />
          <text class="tick" x={left - 6} y={line.y.toPage(tick)} dy="0.34em" text-anchor="end">
            {shown.numbers[n]}
          </text>
        </g>
      ))}
      <path class="axis" d={`M${left} ${line.top}V${line.bottom}`} />
      <path class={`wave ${kind}`} d={line.path} data-line={kind} />
      <text class="track-name" x={left} y={line.top - 5}>
        {[line.name, shown.unit].filter(Boolean).join(", ")}
      </text>
    </g>
  );
}

/** A time on the axis of a burst. */
const timeText = (at: number) => formatQuantity(at, "s", { digits: 4 });

export function OverlayPlot({ overlay, prediction }: { readonly overlay: Overlay; readonly prediction: Prediction }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const scale = useRef<Scale | null>(null);
  const whole = overlaySpan(overlay);
  const asked = useSignal<Span | undefined>(undefined);
  const cursor = useSignal<number | undefined>(undefined);
  const bounds = useRef(whole);
  bounds.current = whole;
  const span = useComputed(() => asked.value ?? bounds.current);
  const hand = useMemo(() => {
    const show = ({ from, to }: Span) => {
      const { from: first, to: last } = bounds.current;
      const length = Math.max(to - from, (last - first) / 2000);
      const start = Math.min(Math.max(from, first), last - length);
      asked.value = length >= last - first ? undefined : { from: start, to: start + length };
    };
    const now = () => asked.peek() ?? bounds.current;
    return {
      whole: () => {
        asked.value = undefined;
      },
      pan: (by: number) => {
        const { from, to } = now();
        show({ from: from + by, to: to + by });
      },
      zoom: (factor: number, about: number) => {
        const { from, to } = now();
        const keep = Math.min(Math.max(about, from), to);
        show({ from: keep - (keep - from) / factor, to: keep + (to - keep) / factor });
      },
      place: (at: number) => {
        cursor.value = Math.min(Math.max(at, bounds.current.from), bounds.current.to);
      },
    };
  }, [asked, cursor]);
  useWavePointer(ref, scale, hand);
  const width = Math.max(Math.floor(size.width), 240);
  const isNarrow = width < 520;
  const margin = { left: isNarrow ? 44 : 58, right: 10, top: 40, bottom: 40 };
  const { from, to } = asked.value ?? whole;
  const laid = layOverlay(overlay, {
    prediction,
    span: { from, to },
    width,
    trackHeight: isNarrow ? 120 : 150,
    margin,
    gap: 24,
    fitted: asked.value !== undefined,
  });
  useEffect(() => {
    scale.current = laid.x;
  });
  const { measured, predicted, residual, x, height } = laid;
  const at = cursor.value ?? overlay.onTime ?? whole.from;
  const values = overlay.predicted[prediction]?.values;
  const value = sampleAt(overlay.time, overlay.measured, at);
  const shown = (what: number) => formatQuantity(what, overlay.unit, { digits: 3 });
  const says = [
    `${timeText(at)}: record ${shown(value)}`,
    ...(values ? [`${predicted?.name} ${shown(sampleAt(overlay.time, values, at))}`] : []),
    ...(values ? [`left ${shown(value - sampleAt(overlay.time, values, at))}`] : []),
  ].join(", ");
  const base = height - margin.bottom;
  const right = width - margin.right;
  const times = axisNumbers(x.ticks, "s", x.high);
  const step = (span.value.to - span.value.from) / 100;
  const keys: Readonly<Record<string, () => void>> = {
    ArrowRight: () => hand.place(at + step),
    ArrowUp: () => hand.place(at + step),
    ArrowLeft: () => hand.place(at - step),
    ArrowDown: () => hand.place(at - step),
    PageUp: () => hand.place(at + 10 * step),
    PageDown: () => hand.place(at - 10 * step),
    Home: () => hand.place(whole.from),
    End: () => hand.place(whole.to),
    "+": () => hand.zoom(1.5, at),
    "=": () => hand.zoom(1.5, at),
    "-": () => hand.zoom(1 / 1.5, at),
    "0": hand.whole,
    ",": () => hand.pan((from - to) / 4),
    ".": () => hand.pan((to - from) / 4),
  };
  return (
    <>
      <div
        ref={ref}
        class="wave-field overlay-field"
        role="slider"
        tabIndex={0}
        aria-label="Time read in the record"
        aria-valuemin={Number((whole.from * 1e6).toFixed(2))}
        aria-valuemax={Number((whole.to * 1e6).toFixed(2))}
        aria-valuenow={Number((at * 1e6).toFixed(2))}
        aria-valuetext={says}
        onKeyDown={(event) => {
          const act = keys[event.key];
          if (act === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
          event.preventDefault();
          act();
        }}
      >
        <svg class="waves" width={width} height={height} aria-hidden="true">
          {x.ticks.map((tick, n) => (
            <g key={tick}>
              <path class="hair" d={`M${x.toPage(tick)} ${margin.top}V${base}`} />
              <text class="tick" x={x.toPage(tick)} y={base + 16} text-anchor="middle">
                {times.numbers[n]}
              </text>
            </g>
          ))}
          <text class="tick words" x={(margin.left + right) / 2} y={base + 31} text-anchor="middle">
            {`time from the start of the burst, ${times.unit}`}
          </text>
          <Line line={measured} kind="measured" left={margin.left} right={right} />
          {predicted && <path class={`wave predicted ${prediction}`} d={predicted.path} data-line="predicted" />}
          {residual && <Line line={residual} kind="residual" left={margin.left} right={right} />}
          {[
            { time: overlay.onTime, name: "end of on-time" },
            { time: overlay.breakoutTime, name: "breakout as drawn" },
          ].map(({ time, name }) =>
            time === undefined || time < from || time > to ? null : (
              <g key={name} class="moment">
                <path d={`M${x.toPage(time)} 6V${base}`} />
                <text
                  x={x.toPage(time) + (x.toPage(time) > right - 110 ? -4 : 4)}
                  y={15}
                  text-anchor={x.toPage(time) > right - 110 ? "end" : "start"}
                >
                  {name}
                </text>
              </g>
            ),
          )}
          {at >= from && at <= to && <path class="reader" d={`M${x.toPage(at)} ${margin.top}V${base}`} />}
        </svg>
      </div>
      <div class="readout">
        <output>{says}</output>
        <ul class="legend">
          <li class="key measured-key">record</li>
          {predicted && <li class={`key ${prediction}-key`}>{predicted.name}</li>}
        </ul>
        <fieldset class="cluster" aria-label="Time in view">
          <button type="button" class="square" aria-label="Zoom in on the reading" onClick={() => hand.zoom(2, at)}>
            +
          </button>
          <button type="button" class="square" aria-label="Zoom out" onClick={() => hand.zoom(0.5, at)}>
            −
          </button>
          <button type="button" onClick={hand.whole}>
            Whole
          </button>
        </fieldset>
      </div>
    </>
  );
}
