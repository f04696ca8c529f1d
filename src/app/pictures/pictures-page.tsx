/** Seven pictures that explain this coil: played, stepped through, presented, handed on as files. */
import "./pictures.css";
import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { downloadBlob } from "../host/pick-file.ts";
import { onDisk } from "../state/document.ts";
import { notice, theme } from "../state/view.ts";
import { canFilm, film, pngSeries, svgFile } from "./picture-files.ts";
import { PictureFrame } from "./picture-frame.tsx";
import { phase, pictures, playing, presenting, show, shown, shownIndex } from "./pictures-state.ts";
import { Presenter } from "./presenter.tsx";
import { onward, usePlaying } from "./use-playing.ts";

/** A file that is being made. */
const making = signal<{ readonly what: string; readonly done: number; readonly stop: AbortController } | undefined>(
  undefined,
);

type Maker = typeof film;

const stem = () => `${onDisk.peek().name.replace(/\.[^.]*$/, "")}-${shown.peek()?.id ?? "picture"}`;

async function make(what: string, ending: string, maker: Maker): Promise<void> {
  const picture = shown.peek();
  if (picture === undefined || making.peek() !== undefined) return;
  const stop = new AbortController();
  making.value = { what, done: 0, stop };
  try {
    const tell = (done: number) => {
      making.value = { what, done, stop };
    };
    const blob = await maker({ picture, theme: theme.peek(), tell, signal: stop.signal });
    downloadBlob(`${stem()}.${ending}`, blob);
    notice.value = `${what} handed to the browser's downloads`;
  } catch (error) {
    notice.value = stop.signal.aborted
      ? `${what} given up; nothing was written`
      : `${what} could not be made: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    making.value = undefined;
  }
}

async function stillAsSvg(): Promise<void> {
  const picture = shown.peek();
  if (picture === undefined) return;
  try {
    downloadBlob(`${stem()}.svg`, await svgFile(picture, theme.peek(), phase.peek()));
    notice.value = "Picture handed to the browser's downloads";
  } catch (error) {
    notice.value = `The picture could not be made: ${error instanceof Error ? error.message : String(error)}`;
  }
}

const pause = () => {
  playing.value = false;
};

export function PicturesPage() {
  usePlaying();
  useEffect(() => pause, []);
  const picture = shown.value;
  if (picture === undefined) {
    return <p class="empty">The pictures appear here when the coil has been solved.</p>;
  }
  const count = pictures.value.length;
  const busy = making.value;
  return (
    <section class="pictures" aria-labelledby="pictures-title">
      <header class="wave-bar">
        <h2 id="pictures-title">{picture.title}</h2>
        <fieldset class="cluster" aria-label="Pictures">
          <button type="button" onClick={() => show(shownIndex.peek() - 1)}>
            Back
          </button>
          <span class="number">{`${shownIndex.value + 1} of ${count}`}</span>
          <button type="button" onClick={() => show(shownIndex.peek() + 1)}>
            Next
          </button>
          <button
            type="button"
            aria-pressed={playing.value}
            onClick={() => {
              playing.value = !playing.peek();
            }}
          >
            {playing.value ? "Pause" : "Play"}
          </button>
          <button
            type="button"
            onClick={() => {
              presenting.value = true;
            }}
          >
            Present
          </button>
        </fieldset>
      </header>
      {!presenting.value && <PictureFrame />}
      <input
        class="moment-slider"
        type="range"
        aria-label="Moment of the picture"
        aria-valuetext={`${Math.round(phase.value * 100)} per cent of a round`}
        min={0}
        max={1}
        step={0.005}
        value={phase.value}
        onInput={(event) => {
          pause();
          phase.value = event.currentTarget.valueAsNumber;
        }}
        onKeyDown={(event) => {
          if (event.key !== " ") return;
          event.preventDefault();
          playing.value = !playing.peek();
        }}
      />
      <fieldset class="cluster" aria-label="This picture as a file">
        <button type="button" onClick={() => void stillAsSvg()}>
          SVG
        </button>
        <button
          type="button"
          disabled={busy !== undefined}
          onClick={() => void make("Series of pictures", "zip", pngSeries)}
        >
          PNG series
        </button>
        {canFilm() && (
          <button type="button" disabled={busy !== undefined} onClick={() => void make("Film", "webm", film)}>
            WebM film
          </button>
        )}
        {busy && (
          <span class="working-line">
            <progress max={1} value={busy.done} aria-label={`${busy.what}, how far it is`} />
            <button type="button" onClick={() => busy.stop.abort()}>
              Give up
            </button>
          </span>
        )}
      </fieldset>
      {presenting.value && <Presenter onStep={onward} />}
    </section>
  );
}
