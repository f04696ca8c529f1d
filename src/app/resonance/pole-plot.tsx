/** How both poles move with the tap or the bank: present point, matched point, and a crosshair moved by pointer or keys. */
import { useState } from "preact/hooks";
import { formatParts, formatQuantity } from "../../units/index.ts";
import { layPlot, valueAt } from "../../views/plots.ts";
import type { PoleTrack } from "../../workbench/contract.ts";
import { useSize } from "../drawing/use-size.ts";
import { linkedPoles } from "./linked-poles.ts";
import { PlotFrame } from "./plot-frame.tsx";

interface Properties {
  readonly track: PoleTrack;
  readonly title: string;
  readonly xLabel: string;
  readonly xUnit: string;
  readonly present: number;
  readonly matched: number | undefined;
  /** Limits shared with the linked plot [Hz]. */
  readonly limits: readonly [number, number];
  /** Writes the value under the crosshair into the file. */
  readonly onTake: (at: number) => void;
}

const height = 250;
const margin = { left: 52, right: 14, top: 22, bottom: 40 };

export function PolePlot({ track, title, xLabel, xUnit, present, matched, limits, onTake }: Properties) {
  const { ref, size } = useSize<HTMLDivElement>();
  const [cursor, setCursor] = useState<number | undefined>(undefined);
  const width = Math.max(size.width, 200);
  const low = track.at[0] ?? 0;
  const high = track.at[track.at.length - 1] ?? 1;
  const lines = [
    { id: "lower", x: track.at, y: track.lower },
    { id: "upper", x: track.at, y: track.upper },
  ];
  const plot = layPlot({ width, height, margin, lines, yLimits: limits, xTicks: Math.max(3, width / 90), yTicks: 5 });
  const at = cursor ?? present;
  const poles = [track.lower, track.upper].map((y) => valueAt({ x: track.at, y }, at));
  const ratio = valueAt({ x: track.at, y: track.ratio }, at);
  const words = (value: number) => formatQuantity(value, xUnit, { digits: 4, trim: true });
  const hertz = (value: number | undefined) =>
    value === undefined ? "outside" : formatQuantity(value, "Hz", { digits: 5 });
  const readout = `${words(at)}: lower ${hertz(poles[0])}, upper ${hertz(poles[1])}, ratio ${ratio?.toFixed(3) ?? "outside"}`;
  const move = (to: number) => {
    const next = Math.min(Math.max(to, low), high);
    setCursor(next);
    linkedPoles.value = [track.lower, track.upper].flatMap((y) => valueAt({ x: track.at, y }, next) ?? []);
  };
  const leave = () => {
    setCursor(undefined);
    linkedPoles.value = [];
  };
  const x = plot.x.toPage(at);
  const clip = `clip-${track.against}`;
  return (
    <figure class="pole-plot">
      <figcaption>{title}</figcaption>
      <div
        ref={ref}
        class="plot-field"
        role="slider"
        tabIndex={0}
        aria-label={`${title}: crosshair`}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(((at - low) / (high - low)) * 100)}
        aria-valuetext={readout}
        onPointerMove={(event) =>
          move(plot.x.fromPage(event.clientX - event.currentTarget.getBoundingClientRect().left))
        }
        onPointerLeave={leave}
        onBlur={leave}
        onKeyDown={(event) => {
          const step = ((high - low) / 100) * (event.shiftKey ? 0.1 : 1);
          const keys: Readonly<Record<string, () => void>> = {
            ArrowRight: () => move(at + step),
            ArrowUp: () => move(at + step),
            ArrowLeft: () => move(at - step),
            ArrowDown: () => move(at - step),
            Home: () => move(low),
            End: () => move(high),
            Enter: () => onTake(at),
          };
          const act = keys[event.key];
          if (act === undefined || event.ctrlKey || event.metaKey) return;
          event.preventDefault();
          act();
        }}
      >
        <PlotFrame
          plot={plot}
          width={width}
          height={height}
          xLabel={xLabel}
          xText={(value) => formatParts(value, xUnit, { trim: true }).number}
          yText={(value) => String(Number((value / 1e3).toPrecision(6)))}
          yUnit="kHz"
        >
          <g class="linked">
            {linkedPoles.value
              .filter((pole) => pole > plot.y.low && pole < plot.y.high)
              .map((pole) => (
                <path key={pole} d={`M${margin.left} ${plot.y.toPage(pole)}H${width - margin.right}`} />
              ))}
          </g>
          {matched !== undefined && matched >= plot.x.low && matched <= plot.x.high && (
            <g class="matched">
              <path d={`M${plot.x.toPage(matched)} ${margin.top}V${height - margin.bottom}`} />
              <text
                x={plot.x.toPage(matched) + (plot.x.toPage(matched) > width - 90 ? -5 : 5)}
                y={height - margin.bottom - 6}
                text-anchor={plot.x.toPage(matched) > width - 90 ? "end" : "start"}
              >
                aim
              </text>
            </g>
          )}
          <clipPath id={clip}>
            <rect
              x={margin.left}
              y={margin.top}
              width={width - margin.left - margin.right}
              height={height - margin.top - margin.bottom}
            />
          </clipPath>
          <g clip-path={`url(#${clip})`}>
            {plot.lines.map(({ id, path }) => (
              <path key={id} class={`pole ${id}`} d={path} />
            ))}
          </g>
          <g class="present">
            {[track.lower, track.upper].map((y, index) => {
              const pole = valueAt({ x: track.at, y }, present);
              return pole === undefined ? null : (
                <circle
                  key={index === 0 ? "lower" : "upper"}
                  cx={plot.x.toPage(present)}
                  cy={plot.y.toPage(pole)}
                  r={4.5}
                />
              );
            })}
          </g>
          {cursor !== undefined && (
            <g class="crosshair">
              <path d={`M${x} ${margin.top}V${height - margin.bottom}`} />
              {poles.map((pole, index) =>
                pole === undefined ? null : (
                  <path key={index === 0 ? "lower" : "upper"} d={`M${x - 6} ${plot.y.toPage(pole)}h12`} />
                ),
              )}
            </g>
          )}
        </PlotFrame>
      </div>
      <p class="readout">
        <output>{readout}</output>
        {matched !== undefined && (
          <button type="button" onClick={() => onTake(matched)}>
            Take the aim, {words(matched)}
          </button>
        )}
      </p>
    </figure>
  );
}
