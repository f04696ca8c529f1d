/** Junction temperature over one repetition of the steady train. */

import { formatQuantity } from "../../units/index.ts";
import { axisNumbers } from "../../views/axis-numbers.ts";
import { layPlot } from "../../views/plots.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { useSize } from "../drawing/use-size.ts";
import { PlotFrame } from "../resonance/plot-frame.tsx";

const height = 210;
const margin = { left: 50, right: 12, top: 28, bottom: 40 };
const kelvinZero = 273.15;

/** @param most  the junction's own limit [K] */
export function JunctionPlot({ study, most }: { readonly study: BurstStudy; readonly most: number | undefined }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const { time, temperature } = study.junction;
  if (time.length === 0) return null;
  const width = Math.max(Math.floor(size.width), 240);
  const celsius = temperature.map((kelvin) => kelvin - kelvinZero);
  const limit = most === undefined ? undefined : most - kelvinZero;
  const [low, high] = [Math.min(...celsius), Math.max(...celsius)];
  // the limit is drawn where it is near enough not to press the curve flat
  const shown = limit !== undefined && limit < high + 4 * (high - low) ? limit : undefined;
  const pad = Math.max(0.08 * (high - low), 0.5);
  const plot = layPlot({
    width,
    height,
    margin,
    lines: [{ id: "junction", x: time, y: celsius }],
    yLimits: [low - pad, Math.max(high, shown ?? high) + pad],
    xTicks: Math.max(3, width / 110),
    yTicks: 4,
  });
  const times = axisNumbers(plot.x.ticks, "s", plot.x.high);
  const degrees = (value: number) => formatQuantity(value + kelvinZero, "K", { digits: 3 });
  const says = `The junction goes from ${degrees(low)} to ${degrees(high)} in each repetition of ${formatQuantity(time.at(-1) ?? 0, "s", { digits: 3 })}${limit === undefined ? "" : `; its limit is ${degrees(limit)}`}.`;
  return (
    <section class="junction" aria-labelledby="junction-title">
      <h2 id="junction-title">Junction over one repetition</h2>
      <p class="small">{says}</p>
      <div ref={ref}>
        <PlotFrame
          plot={plot}
          width={width}
          height={height}
          xText={(tick) => times.numbers[plot.x.ticks.indexOf(tick)] ?? ""}
          yText={(tick) => String(Number(tick.toPrecision(5)))}
          xLabel={`time, ${times.unit}`}
          yUnit="°C"
        >
          {shown !== undefined && (
            <path class="limit" d={`M${margin.left} ${plot.y.toPage(shown)}H${width - margin.right}`} />
          )}
          <path class="wave junction-line" d={plot.lines[0]?.path ?? ""} />
        </PlotFrame>
      </div>
    </section>
  );
}
