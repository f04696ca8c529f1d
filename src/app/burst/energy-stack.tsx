/** Who has had the energy, stacked over the time axis of the waveforms. */

import { axisNumbers } from "../../views/axis-numbers.ts";
import { layPlot, type Scale } from "../../views/plots.ts";
import { energyStack, greatestStack } from "../../views/waveform-energy.ts";
import type { Waveforms } from "../../workbench/burst-contract.ts";

interface Properties {
  readonly waves: Waveforms;
  readonly x: Scale;
  readonly width: number;
  readonly left: number;
  readonly height: number;
}

const margin = { top: 20, bottom: 10 };

export function EnergyStack({ waves, x, width, left, height }: Properties) {
  const most = greatestStack(waves);
  const { y } = layPlot({
    width,
    height,
    margin: { left, right: 10, ...margin },
    lines: [],
    xLimits: [x.low, x.high],
    yLimits: [0, most > 0 ? most * 1.06 : 1],
    xTicks: 3,
    yTicks: 4,
  });
  const shown = axisNumbers(y.ticks, "J", y.high);
  const right = x.toPage(x.high);
  return (
    <svg class="waves stack" width={width} height={height} aria-hidden="true">
      {energyStack({ waves, span: { from: x.low, to: x.high }, x, y }).map(({ part, path }) => (
        <path key={part} class={`share ${part}`} d={path} />
      ))}
      {y.ticks.map((tick, n) => (
        <g key={tick}>
          <path class="hair" d={`M${left} ${y.toPage(tick)}H${right}`} />
          <text class="tick" x={left - 6} y={y.toPage(tick)} dy="0.34em" text-anchor="end">
            {shown.numbers[n]}
          </text>
        </g>
      ))}
      <path class="axis" d={`M${left} ${margin.top}V${height - margin.bottom}H${right}`} />
      <text class="track-name" x={left} y={margin.top - 6}>
        energy given by the bus, {shown.unit}
      </text>
    </svg>
  );
}
