/** Axes of a plot: ticks, numbers, and what they count. */
import type { ComponentChildren } from "preact";
import type { Plot } from "../../views/plots.ts";

interface Properties {
  readonly plot: Plot;
  readonly width: number;
  readonly height: number;
  readonly xText: (value: number) => string;
  readonly yText: (value: number) => string;
  readonly xLabel: string;
  /** Unit of the numbers up the side. */
  readonly yUnit: string;
  readonly children: ComponentChildren;
}

export function PlotFrame({ plot, width, height, xText, yText, xLabel, yUnit, children }: Properties) {
  const [bottom, top] = [plot.y.toPage(plot.y.low), plot.y.toPage(plot.y.high)];
  const [left, right] = [plot.x.toPage(plot.x.low), plot.x.toPage(plot.x.high)];
  return (
    <svg class="plot" width={width} height={height} aria-hidden="true">
      <g class="grid">
        {plot.x.ticks.map((tick) => (
          <path key={tick} d={`M${plot.x.toPage(tick)} ${bottom}V${top}`} />
        ))}
        {plot.y.ticks.map((tick) => (
          <path key={tick} d={`M${left} ${plot.y.toPage(tick)}H${right}`} />
        ))}
      </g>
      <path class="axis" d={`M${left} ${top}V${bottom}H${right}`} />
      <g class="tick-text">
        {plot.x.ticks.map((tick) => (
          <text key={tick} x={plot.x.toPage(tick)} y={bottom + 15} text-anchor="middle">
            {xText(tick)}
          </text>
        ))}
        {plot.y.ticks.map((tick) => (
          <text key={tick} x={left - 6} y={plot.y.toPage(tick)} dy="0.34em" text-anchor="end">
            {yText(tick)}
          </text>
        ))}
        <text x={left - 6} y={top - 8} text-anchor="end">
          {yUnit}
        </text>
        <text class="axis-label" x={(left + right) / 2} y={bottom + 32} text-anchor="middle">
          {xLabel}
        </text>
      </g>
      {children}
    </svg>
  );
}
