/** What an instrument should show at a test point, drawn small beside the step. */
import { axisNumbers } from "../../views/axis-numbers.ts";
import { layPlot } from "../../views/plots.ts";
import type { ExpectedPicture } from "../../workbench/bringup-contract.ts";
import { useSize } from "../drawing/use-size.ts";
import { PlotFrame } from "../resonance/plot-frame.tsx";

const height = 150;
const tones = ["fitted", "drawn", "measured", "residual"];

export function ExpectedPlot({ picture, says }: { readonly picture: ExpectedPicture; readonly says: string }) {
  const { ref, size } = useSize<HTMLDivElement>();
  const width = Math.max(Math.floor(size.width), 220);
  const { at, traces, marks, unit, against, note } = picture;
  const greatest = traces.map(({ values }) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1);
  // lines of one unit share a scale; otherwise each is drawn by its own height
  const shared = traces.every((each) => each.unit === traces[0]?.unit);
  const most = Math.max(...greatest);
  const swings = traces.some(({ values }) => values.some((value) => value < 0));
  const plot = layPlot({
    width,
    height,
    margin: { left: shared ? 46 : 14, right: 10, top: 20, bottom: 38 },
    lines: traces.map(({ id, values }, n) => ({
      id,
      x: at,
      y: shared ? values : values.map((value) => value / (greatest[n] ?? 1)),
    })),
    xLimits: [at[0] ?? 0, at.at(-1) ?? 1],
    yLimits: shared ? [swings ? -1.08 * most : 0, 1.08 * most] : [swings ? -1.08 : 0, 1.08],
    xTicks: Math.max(3, width / 90),
    yTicks: 3,
  });
  const x = axisNumbers(plot.x.ticks, unit === "1" ? "" : unit, plot.x.high);
  const y = axisNumbers(plot.y.ticks, traces[0]?.unit === "1" ? "" : (traces[0]?.unit ?? ""), plot.y.high);
  const bottom = plot.y.toPage(plot.y.low);
  return (
    <figure class="expected">
      <div ref={ref}>
        <PlotFrame
          plot={plot}
          width={width}
          height={height}
          xText={(tick) => x.numbers[plot.x.ticks.indexOf(tick)] ?? ""}
          yText={(tick) => (shared ? (y.numbers[plot.y.ticks.indexOf(tick)] ?? "") : "")}
          xLabel={[against, x.unit].filter(Boolean).join(", ")}
          yUnit={shared ? y.unit : ""}
        >
          {marks.map(({ at: place, says: words }) => (
            <path key={`${place} ${words}`} class="expected-mark" d={`M${plot.x.toPage(place)} 20V${bottom}`} />
          ))}
          {plot.lines.map(({ id, path }, n) => (
            <path key={id} class={`wave predicted ${tones[n % tones.length]}`} d={path} />
          ))}
        </PlotFrame>
      </div>
      <figcaption class="small">
        <span class="only-heard">{says}</span>
        <ul class="legend">
          {traces.map(({ id, says: words }, n) => (
            <li key={id} class={`key ${tones[n % tones.length]}-key`}>
              {words}
            </li>
          ))}
        </ul>
        {marks.length > 0 && <p>{`Marked: ${[...new Set(marks.map(({ says: words }) => words))].join("; ")}.`}</p>}
        {note !== undefined && <p>{note}</p>}
      </figcaption>
    </figure>
  );
}
