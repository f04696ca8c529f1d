/** A record over its prediction: in time with what is left beneath, and in frequency. */
import { useState } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { type Overlay, overlayName, type Prediction } from "../../views/match-plot.ts";
import type { Match } from "../../workbench/match-contract.ts";
import { prediction } from "./bench-state.ts";
import { OverlayPlot } from "./overlay-plot.tsx";
import { RecordSpectrum, SweepPlot } from "./record-spectrum.tsx";

interface Properties {
  readonly overlays: readonly Overlay[];
  readonly sweep: { readonly frequency: Float64Array; readonly amplitude: Float64Array } | undefined;
  readonly match: Match | undefined;
}

const against: readonly (readonly [Prediction, string])[] = [
  ["fitted", "As fitted"],
  ["drawn", "As drawn"],
];

/** What was done to the prediction to lay it there. */
function placedText({ predicted, against: what, unit, onTime, breakoutTime }: Overlay, name: Prediction): string {
  const wave = predicted[name];
  if (wave === undefined)
    return onTime === undefined
      ? "There is no drive in this record, so no burst stands against it; compare it in frequency."
      : "Without a comparison, or a bridge in the file, no burst stands against this record.";
  const { shift, scale, left } = wave;
  const scaled =
    Math.abs(scale) === 1 ? "at its own scale" : `scaled to fit, for the channel (${unit}) has no scale of its own`;
  const turned = scale < 0 ? ", turned upside down" : "";
  const broken =
    breakoutTime === undefined
      ? ""
      : ` As drawn the top breaks out at ${formatQuantity(breakoutTime, "s", { digits: 3 })}; the prediction knows no streamer.`;
  return `Predicted ${what} ${scaled}${turned}, moved by ${formatQuantity(shift, "s", { digits: 2 })}. What is left is ${Math.round(100 * left)} % of the record.${broken}`;
}

export function RecordPictures({ overlays, sweep, match }: Properties) {
  const [chosen, choose] = useState(0);
  if (sweep !== undefined) return <SweepPlot sweep={sweep} match={match} />;
  const overlay = overlays[chosen] ?? overlays[0];
  if (overlay === undefined) return <p class="empty">No burst and no ring-down was found to draw in this record.</p>;
  return (
    <section class="record-pictures" aria-labelledby="pictures-title">
      <header class="wave-bar">
        <h2 id="pictures-title">Record over prediction</h2>
        {overlays.length > 1 && (
          <fieldset class="cluster" aria-label="Channel">
            {overlays.map((each, n) => (
              <button key={each.channel} type="button" aria-pressed={each === overlay} onClick={() => choose(n)}>
                {overlayName(each)}
              </button>
            ))}
          </fieldset>
        )}
        <fieldset class="cluster" aria-label="Prediction">
          {against.map(([name, says]) => (
            <button
              key={name}
              type="button"
              aria-pressed={prediction.value === name}
              onClick={() => {
                prediction.value = name;
              }}
            >
              {says}
            </button>
          ))}
        </fieldset>
      </header>
      <OverlayPlot overlay={overlay} prediction={prediction.value} />
      <p class="small">{placedText(overlay, prediction.value)}</p>
      <RecordSpectrum overlay={overlay} prediction={prediction.value} match={match} />
    </section>
  );
}
