/** A record in frequency over its prediction, with the poles as drawn and as fitted; and a sweep. */

import { useState } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import type { Overlay, Prediction } from "../../views/match-plot.ts";
import { layPlot, type PlotLine, valueAt } from "../../views/plots.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { FrequencyField } from "../burst/frequency-field.tsx";
import { useSize } from "../drawing/use-size.ts";
import { solution } from "../state/answers.ts";

const height = 220;

interface Pole {
  readonly name: string;
  readonly at: number;
  readonly kind: Prediction;
}

/** The coil's lines as drawn and, where there is a fit, as fitted. */
function polesOf(match: Match | undefined): readonly Pole[] {
  const fitted = ["lower", "upper"].flatMap((which): Pole[] => {
    const found = match?.matched.find(({ id }) => id === `match.poles.${which}`);
    return found ? [{ name: `${which} pole, fitted`, at: found.value, kind: "fitted" }] : [];
  });
  const drawn = ["lower", "upper"].flatMap((which): Pole[] => {
    const at =
      match?.matched.find(({ id }) => id === `match.poles.${which}`)?.drawn ??
      solution.value?.figures.get(`poles.${which}`)?.value;
    return at === undefined ? [] : [{ name: `${which} pole, drawn`, at, kind: "drawn" }];
  });
  return [...drawn, ...fitted];
}

interface Properties {
  readonly title: string;
  readonly unit: string;
  readonly lines: readonly PlotLine[];
  readonly poles: readonly Pole[];
  readonly limits: readonly [number, number];
}

function FrequencyPlot({ title, unit, lines, poles, limits: [low, high] }: Properties) {
  const { ref, size } = useSize<HTMLDivElement>();
  const [cursor, setCursor] = useState<number | undefined>(undefined);
  const width = Math.max(Math.floor(size.width), 240);
  const margin = { left: width < 520 ? 44 : 58, right: 10, top: 22, bottom: 40 };
  // each line by its own height: a spectrum is compared by where it stands
  const most = lines.map(
    ({ y }) => Array.prototype.reduce.call(y, (a, b) => Math.max(a as number, b as number), 0) as number,
  );
  const top = Math.max(...most, 0) || 1;
  const plot = layPlot({
    width,
    height,
    margin,
    lines,
    xLimits: [low, high],
    yLimits: [0, 1.06 * top],
    xTicks: Math.max(3, width / 110),
    yTicks: 4,
  });
  const at = cursor ?? poles.find(({ kind }) => kind === "fitted")?.at ?? poles[0]?.at ?? (low + high) / 2;
  const shown = (value: number | undefined) =>
    value === undefined ? "outside" : unit === "1" ? value.toPrecision(3) : formatQuantity(value, unit, { digits: 3 });
  const reading = `${formatQuantity(at, "Hz", { digits: 5 })}: ${lines.map((line) => `${line.id} ${shown(valueAt(line, at))}`).join(", ")}`;
  const factor = Number(formatQuantity(top, unit === "1" ? "" : unit, { digits: 12 }).split(/\s/)[0]) / top;
  const shownUnit = formatQuantity(top, unit === "1" ? "" : unit, { digits: 12 }).split(/\s/)[1] ?? "";
  return (
    <section class="spectrum" aria-label={title}>
      <h3>{title}</h3>
      <p class="only-heard">
        {poles.map(({ name, at: pole }) => `${name} at ${formatQuantity(pole, "Hz")}`).join(", ")}
      </p>
      <FrequencyField
        field={ref}
        plot={plot}
        width={width}
        height={height}
        label="Frequency read in the record"
        limits={[low, high]}
        at={at}
        reading={reading}
        onRead={setCursor}
        yText={(tick) => String(Number((tick * factor).toPrecision(3)))}
        yUnit={shownUnit}
      >
        {poles
          .filter(({ at: pole }) => pole > low && pole < high)
          .map(({ name, at: pole, kind }) => (
            <path
              key={name}
              class={`pole-line ${kind}`}
              d={`M${plot.x.toPage(pole)} ${margin.top - 4}V${height - margin.bottom}`}
            />
          ))}
        {plot.lines.map(({ id, path }) => (
          <path key={id} class={`wave ${id === "record" ? "measured" : "predicted"} ${id}`} d={path} />
        ))}
        {cursor !== undefined && (
          <g class="crosshair">
            <path d={`M${plot.x.toPage(at)} ${margin.top}V${height - margin.bottom}`} />
          </g>
        )}
      </FrequencyField>
      <div class="readout">
        <output>{reading}</output>
        <ul class="legend">
          {poles.some(({ kind }) => kind === "drawn") && <li class="key drawn-key">poles, drawn</li>}
          {poles.some(({ kind }) => kind === "fitted") && <li class="key fitted-key">poles, fitted</li>}
        </ul>
      </div>
    </section>
  );
}

export function RecordSpectrum({
  overlay,
  prediction,
  match,
}: {
  readonly overlay: Overlay;
  readonly prediction: Prediction;
  readonly match: Match | undefined;
}) {
  const { frequency, measured, predicted } = overlay.spectrum;
  const against = predicted[prediction];
  if (frequency.length < 2) return null;
  return (
    <FrequencyPlot
      title="The same in frequency"
      unit={overlay.unit}
      lines={[
        { id: "record", x: frequency, y: measured },
        ...(against ? [{ id: prediction, x: frequency, y: against }] : []),
      ]}
      poles={polesOf(match)}
      limits={[frequency[0] ?? 0, frequency.at(-1) ?? 1]}
    />
  );
}

export function SweepPlot({
  sweep: { frequency, amplitude },
  match,
}: {
  readonly sweep: { readonly frequency: Float64Array; readonly amplitude: Float64Array };
  readonly match: Match | undefined;
}) {
  const order = [...frequency.keys()].sort((a, b) => (frequency[a] ?? 0) - (frequency[b] ?? 0));
  const x = Float64Array.from(order, (n) => frequency[n] ?? 0);
  const y = Float64Array.from(order, (n) => amplitude[n] ?? 0);
  return (
    <FrequencyPlot
      title="Sweep without power"
      unit="1"
      lines={[{ id: "record", x, y }]}
      poles={polesOf(match)}
      limits={[x[0] ?? 0, x.at(-1) ?? 1]}
    />
  );
}
