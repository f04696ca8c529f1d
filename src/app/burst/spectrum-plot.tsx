/** Spectrum of the primary current, with the poles that the coil would ring at. */

import { useState } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { axisNumbers } from "../../views/axis-numbers.ts";
import { layPlot, valueAt } from "../../views/plots.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { useSize } from "../drawing/use-size.ts";
import { shownFigure } from "./burst-state.ts";
import { FrequencyField } from "./frequency-field.tsx";

const height = 210;

export function SpectrumPlot({ study }: { readonly study: BurstStudy }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const [cursor, setCursor] = useState<number | undefined>(undefined);
  const { frequency, amplitude } = study.spectrum;
  const width = Math.max(Math.floor(size.width), 240);
  const margin = { left: width < 520 ? 44 : 58, right: 10, top: 34, bottom: 40 };
  const poles = [
    { name: "lower pole", at: shownFigure("poles.lower")?.value },
    { name: "upper pole", at: shownFigure("poles.upper")?.value },
  ].flatMap(({ name, at }) => (at === undefined ? [] : [{ name, at }]));
  const run = shownFigure("burst.frequency")?.value;
  const centre = run ?? poles[0]?.at ?? 1;
  const low = Math.min(centre, ...poles.map(({ at }) => at)) * 0.5;
  const high = Math.max(centre, ...poles.map(({ at }) => at)) * 1.6;
  const plot = layPlot({
    width,
    height,
    margin,
    lines: [{ id: "spectrum", x: frequency, y: amplitude }],
    xLimits: [low, high],
    yLimits: [0, amplitude.reduce((a, b) => Math.max(a, b), 0) * 1.08 || 1],
    xTicks: Math.max(3, width / 110),
    yTicks: 4,
  });
  const at = cursor ?? run ?? low;
  const value = valueAt({ x: frequency, y: amplitude }, at);
  const reading = `${formatQuantity(at, "Hz", { digits: 4 })}: ${value === undefined ? "outside" : formatQuantity(value, "A", { digits: 3 })}`;
  const says = [
    run === undefined ? "the bridge does not commutate" : `the burst runs at ${formatQuantity(run, "Hz")}`,
    ...poles.map(({ name, at: pole }) => `${name} at ${formatQuantity(pole, "Hz")}`),
  ].join(", ");
  const { numbers, unit } = axisNumbers(plot.y.ticks, "A", plot.y.high);
  return (
    <section class="spectrum" aria-labelledby="spectrum-title">
      <h2 id="spectrum-title">Spectrum of the primary current</h2>
      <p class="only-heard">{`Amplitude over frequency: ${says}.`}</p>
      <FrequencyField
        field={ref}
        plot={plot}
        width={width}
        height={height}
        label="Frequency read in the spectrum"
        limits={[low, high]}
        at={at}
        reading={reading}
        onRead={setCursor}
        yText={(tick) => numbers[plot.y.ticks.indexOf(tick)] ?? ""}
        yUnit={unit}
      >
        <clipPath id="spectrum-clip">
          <rect
            x={margin.left}
            y={margin.top}
            width={width - margin.left - margin.right}
            height={height - margin.top - margin.bottom}
          />
        </clipPath>
        {poles.map(({ name, at: pole }, n) => (
          <g key={name} class="moment">
            <path d={`M${plot.x.toPage(pole)} ${margin.top - 4}V${height - margin.bottom}`} />
            <text
              x={plot.x.toPage(pole) + (n === 0 ? -4 : 4)}
              y={margin.top - 8}
              text-anchor={n === 0 ? "end" : "start"}
            >
              {name}
            </text>
          </g>
        ))}
        <path class="wave primaryCurrent" d={plot.lines[0]?.path ?? ""} clip-path="url(#spectrum-clip)" />
        {cursor !== undefined && (
          <g class="crosshair">
            <path d={`M${plot.x.toPage(at)} ${margin.top}V${height - margin.bottom}`} />
          </g>
        )}
      </FrequencyField>
      <p class="readout">
        <output>{reading}</output>
      </p>
    </section>
  );
}
