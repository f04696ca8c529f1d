/** The programme as files. */
import { signal } from "@preact/signals";
import { zipSync } from "fflate";
import { formatQuantity } from "../../units/index.ts";
import { downloadBlob } from "../host/pick-file.ts";
import { notice } from "../state/view.ts";
import { recordBench } from "../worker/bench.ts";
import type { OutputKind, OutputSetting, Written } from "./programme-answer.ts";
import { shown, staleShown } from "./programme-state.ts";

const setting = signal<OutputSetting>({ gateRate: 192_000, gatePulse: "positive", idlesHigh: false });
const writing = signal(false);
const said = signal("");

const outputs: readonly (readonly [kind: OutputKind, name: string])[] = [
  ["preview", "Preview WAV"],
  ["gate", "Gate pulses WAV"],
  ["csv", "Pulses CSV"],
  ["json", "JSON"],
  ["midi", "Clean MIDI"],
  ["notation", "Notation"],
  ["firmware", "Firmware, this song"],
  ["follower", "Firmware, live"],
];

const kindOf = (name: string): string =>
  ({ wav: "audio/wav", csv: "text/csv", json: "application/json", mid: "audio/midi" })[name.split(".").at(-1) ?? ""] ??
  "text/plain";

function handOver(kind: OutputKind, { files, error, refused }: Written): string {
  const [first] = files;
  if (first === undefined) return `Nothing was written: ${refused ?? "there was nothing to write"}.`;
  if (kind === "firmware" || kind === "follower") {
    const name = kind === "firmware" ? "firmware-song.zip" : "firmware-live.zip";
    const packed = zipSync(Object.fromEntries(files.map((file) => [file.name, file.bytes])));
    downloadBlob(name, new Blob([new Uint8Array(packed)], { type: "application/zip" }));
    return `${name}: ${files.length} files. Read its README.txt before it drives anything.`;
  }
  downloadBlob(first.name, new Blob([first.bytes], { type: kindOf(first.name) }));
  if (error === undefined) return `${first.name} handed to the browser's downloads.`;
  const time = (value: number) => formatQuantity(value, "s", { digits: 2 });
  return `${first.name}: starts within ${time(error.startWorst)}, on-times up to ${time(error.shortenedWorst)} shorter, ${error.lost} pulses lost. A sound card holds no limit by itself.`;
}

async function write(kind: OutputKind): Promise<void> {
  if (writing.peek()) return;
  writing.value = true;
  try {
    said.value = handOver(kind, await recordBench().programmeFiles(kind, setting.peek()));
  } catch (error) {
    notice.value = `The file could not be made: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    writing.value = false;
  }
}

const rates = [44_100, 48_000, 96_000, 192_000] as const;

export function OutputsPanel() {
  const now = setting.value;
  const waits = writing.value || staleShown.value || shown.value === undefined;
  return (
    <section class="outputs" aria-labelledby="outputs-title">
      <h2 id="outputs-title">Take it along</h2>
      <fieldset class="cluster" aria-label="The programme as a file">
        {outputs.map(([kind, name]) => (
          <button key={kind} type="button" disabled={waits} onClick={() => void write(kind)}>
            {name}
          </button>
        ))}
      </fieldset>
      <div class="output-choices">
        <label>
          <span>Gate WAV, samples a second</span>
          <select
            value={String(now.gateRate)}
            onChange={(event) => {
              const rate = rates.find((one) => String(one) === event.currentTarget.value);
              if (rate !== undefined) setting.value = { ...now, gateRate: rate };
            }}
          >
            {rates.map((rate) => (
              <option key={rate} value={String(rate)}>
                {`${rate / 1000} kHz`}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span>Gate WAV, pulses go</span>
          <select
            value={now.gatePulse}
            onChange={(event) => {
              setting.value = { ...now, gatePulse: event.currentTarget.value === "negative" ? "negative" : "positive" };
            }}
          >
            <option value="positive">up</option>
            <option value="negative">down</option>
          </select>
        </label>
        <label>
          <span>Firmware, transmitter is dark while the output is</span>
          <select
            value={now.idlesHigh ? "high" : "low"}
            onChange={(event) => {
              setting.value = { ...now, idlesHigh: event.currentTarget.value === "high" };
            }}
          >
            <option value="low">low</option>
            <option value="high">high</option>
          </select>
        </label>
      </div>
      <p class="said" role="status">
        {said.value}
      </p>
    </section>
  );
}
