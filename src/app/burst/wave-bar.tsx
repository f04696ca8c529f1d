/** What can be done with the picture: zoom, kinds of view, which cursor a press moves, and taking it away as a file. */

import { waveformCsv } from "../../views/waveform-csv.ts";
import { waveformSvg } from "../../views/waveform-svg.ts";
import type { BurstStudy } from "../../workbench/burst-contract.ts";
import { download } from "../host/pick-file.ts";
import { drawable, onDisk } from "../state/document.ts";
import { notice } from "../state/view.ts";
import { active, cursors, fitted, showHalfCycle, showWhole, span, waves, waveView, zoom } from "./time-window.ts";

const nameOfExport = (ending: string) => `${onDisk.peek().name.replace(/\.[^.]*$/, "")}-burst.${ending}`;

function take(name: string, text: string, type: string): void {
  download({ name, text, type });
  notice.value = `Handed over as ${name}: what is in view, at this setting`;
}

export function WaveBar({ study }: { readonly study: BurstStudy }) {
  const isPeaks = waveView.value === "envelope";
  const about = () => cursors.peek()[active.peek()];
  const exportSvg = () => {
    const name = drawable.peek()?.coil.name ?? "";
    const parts = { study, name, span: span.peek(), view: waveView.peek(), fitted: fitted.peek() };
    take(nameOfExport("svg"), waveformSvg(parts), "image/svg+xml");
  };
  const exportCsv = () => {
    const known = waves.peek();
    if (known !== undefined) take(nameOfExport("csv"), waveformCsv(known, span.peek()), "text/csv");
  };
  return (
    <header class="wave-bar">
      <h2 id="waveforms-title">One burst in time</h2>
      <fieldset class="cluster" aria-label="Time in view">
        <button type="button" class="square" aria-label="Zoom in on the cursor" onClick={() => zoom(2, about())}>
          +
        </button>
        <button type="button" class="square" aria-label="Zoom out" onClick={() => zoom(0.5, about())}>
          −
        </button>
        <button type="button" onClick={showHalfCycle}>
          Half-cycle
        </button>
        <button type="button" onClick={showWhole}>
          Whole burst
        </button>
      </fieldset>
      <fieldset class="cluster" aria-label="View">
        <button
          type="button"
          aria-pressed={isPeaks}
          onClick={() => {
            waveView.value = isPeaks ? "waves" : "envelope";
          }}
        >
          Envelope
        </button>
        <button
          type="button"
          aria-pressed={fitted.value}
          onClick={() => {
            fitted.value = !fitted.peek();
          }}
        >
          Fit heights
        </button>
      </fieldset>
      <fieldset class="cluster" aria-label="Take away what is shown">
        <button type="button" onClick={exportSvg}>
          SVG
        </button>
        <button type="button" onClick={exportCsv}>
          CSV
        </button>
      </fieldset>
    </header>
  );
}
