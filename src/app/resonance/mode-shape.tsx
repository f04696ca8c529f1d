/** One mode of the winding: voltage and current along its height, drawn upright like the winding stands. */
import { formatQuantity } from "../../units/index.ts";
import { layPlot } from "../../views/plots.ts";
import type { ModeProfile } from "../../workbench/contract.ts";

interface Properties {
  readonly mode: ModeProfile;
  readonly number: number;
}

const width = 150;
const height = 220;
const margin = { left: 40, right: 12, top: 8, bottom: 12 };

export function ModeShape({ mode, number }: Properties) {
  const least = Math.min(0, ...mode.voltage, ...mode.current);
  const plot = layPlot({
    width,
    height,
    margin,
    lines: [
      { id: "voltage", x: mode.voltage, y: mode.height },
      { id: "current", x: mode.current, y: mode.height },
    ],
    xLimits: [Math.min(least * 1.1, -0.05), Math.max(1, ...mode.voltage, ...mode.current) * 1.08],
    xTicks: 2,
    yTicks: 5,
  });
  const zero = plot.x.toPage(0);
  return (
    <figure class="mode-shape">
      <figcaption>
        <b>Mode {number}</b> <span class="number">{formatQuantity(mode.frequency, "Hz", { digits: 5 })}</span>
      </figcaption>
      <svg
        class="plot"
        width={width}
        height={height}
        role="img"
        aria-label={`Voltage and current along the winding in mode ${number}, ${formatQuantity(mode.frequency, "Hz")}`}
      >
        <g class="grid">
          {plot.y.ticks.map((tick) => (
            <path key={tick} d={`M${margin.left} ${plot.y.toPage(tick)}H${width - margin.right}`} />
          ))}
        </g>
        <path class="axis" d={`M${zero} ${margin.top}V${height - margin.bottom}`} />
        <g class="tick-text">
          {plot.y.ticks.map((tick) => (
            <text key={tick} x={margin.left - 5} y={plot.y.toPage(tick)} dy="0.34em" text-anchor="end">
              {Math.round(tick * 1000)}
            </text>
          ))}
        </g>
        {plot.lines.map(({ id, path }) => (
          <path key={id} class={`profile ${id}`} d={path} />
        ))}
      </svg>
    </figure>
  );
}
