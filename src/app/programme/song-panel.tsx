/** Where the song comes from: a tune of ours, a file, the text box, one tone or a sweep. */
import { useId, useRef, useState } from "preact/hooks";
import type { Finding } from "../../catalogue/finding.ts";
import { readQuantity } from "../../units/index.ts";
import { SeverityMark } from "../findings/severity-mark.tsx";
import { planned, source, takeFiles, takeSong, tunes, tuneText, writeTune } from "./programme-state.ts";

/** What is there to begin with, and files. */
export function SongChooser() {
  const now = source.value;
  return (
    <section class="song-chooser" aria-labelledby="song-title">
      <h2 id="song-title">Song</h2>
      <fieldset class="cluster" aria-label="Tunes to begin with">
        {tunes.map((tune) => (
          <button
            key={tune.name}
            type="button"
            aria-pressed={now.kind === "tune" && now.text === tune.text}
            onClick={() => takeSong({ kind: "tune", name: tune.name, text: tune.text })}
          >
            {tune.title}
          </button>
        ))}
      </fieldset>
      <FileChooser />
    </section>
  );
}

/** A song written down, and single tones. */
export function WrittenPanel() {
  return (
    <section class="side-part" aria-labelledby="written-title">
      <h2 id="written-title">Written down</h2>
      <TuneBox />
      <GlideForm />
    </section>
  );
}

function FileChooser() {
  const input = useRef<HTMLInputElement>(null);
  const now = source.value;
  return (
    <div class="file-chooser">
      <button type="button" onClick={() => input.current?.click()}>
        Choose a file…
      </button>
      <input
        ref={input}
        type="file"
        accept=".mid,.midi,.kar,.rmi,.tune,.txt,audio/midi,text/plain"
        hidden
        aria-label="Song file"
        onChange={(event) => {
          void takeFiles([...(event.currentTarget.files ?? [])]);
          event.currentTarget.value = "";
        }}
      />
      <span class="small">MIDI, or a tune as text; or drop one on the page.</span>
      {now.kind === "file" && <p>{now.name}</p>}
    </div>
  );
}

function TuneBox() {
  const box = useRef<HTMLTextAreaElement>(null);
  const id = useId();
  const now = source.value;
  const found = planned.value?.songFindings ?? [];
  const inBox = now.kind === "tune";
  const wrong = inBox && found.some(({ severity }) => severity === "stop");
  const go = ({ place }: Finding) => {
    const element = box.current;
    if (element === null || place === undefined) return;
    const before = element.value
      .split("\n")
      .slice(0, place.line - 1)
      .reduce((sum, line) => sum + line.length + 1, 0);
    const begin = before + place.column - 1;
    element.focus();
    element.setSelectionRange(begin, begin + place.length);
  };
  return (
    <div class="tune-box">
      <label for={id}>Notation</label>
      <textarea
        id={id}
        ref={box}
        rows={9}
        spellcheck={false}
        autocomplete="off"
        value={tuneText.value}
        aria-invalid={wrong}
        aria-describedby={`${id}-findings`}
        onInput={(event) => writeTune(event.currentTarget.value)}
      />
      {!inBox && (
        <button type="button" onClick={() => writeTune(tuneText.value)}>
          Play the notation
        </button>
      )}
      <div id={`${id}-findings`} role="status">
        {found.length > 0 && (
          <ul class="song-findings">
            {found.map((one) => (
              <li key={`${one.rule} ${one.place?.line} ${one.place?.column} ${one.what}`} class={one.severity}>
                <SeverityMark severity={one.severity} />
                <span>
                  {one.place !== undefined && inBox ? (
                    <button type="button" class="quiet" onClick={() => go(one)}>
                      {`line ${one.place.line}, column ${one.place.column}`}
                    </button>
                  ) : (
                    one.place?.byte !== undefined && <b>{`byte ${one.place.byte}`}</b>
                  )}
                  {` ${one.what}`}
                  {one.expected !== undefined && `; expected ${one.expected}`}
                  {one.remedies[0] !== undefined && `. ${one.remedies[0].says}`}
                </span>
              </li>
            ))}
          </ul>
        )}
      </div>
      <details>
        <summary>The notation in ten lines</summary>
        <pre>{notation}</pre>
      </details>
    </div>
  );
}

const notation = `tune Title                # a comment
tempo 96                  beats a minute
voice Name                what follows is its
strength 80 %             how hard; level 60 % how loud
gap 30 ms                 ends each sound early
1/2: A4 C#5 Bb3 . A4 +    . rests, + holds on
250 ms: 440 Hz A4&C5      & sounds together
5 s: 100 Hz to 400 Hz     a glide; also A4 to A5
20 ms: noise noise-C2     a burst of noise
repeat 2 … end            the lines between, twice
at 1.5 s                  the voice goes on there`;

interface Field {
  readonly name: string;
  readonly dimension: "frequency" | "time";
  readonly from: number;
  readonly to: number;
  readonly range: string;
}
const fields: Readonly<Record<"low" | "high" | "lasts", Field>> = {
  low: { name: "Tone from", dimension: "frequency", from: 1, to: 20e3, range: "1 Hz to 20 kHz" },
  high: { name: "to", dimension: "frequency", from: 1, to: 20e3, range: "1 Hz to 20 kHz" },
  lasts: { name: "in", dimension: "time", from: 0.01, to: 3600, range: "10 ms to 1 h" },
};

function typedValue(text: string, { name, dimension, from, to, range }: Field): number | string {
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading) return `${name}: ${reading.problem.what}; expected ${reading.problem.expected}`;
  const { value } = reading.quantity;
  return value >= from && value <= to ? value : `${name}: expected ${range}`;
}

/** One steady tone, or a sweep where the two ends differ. */
function GlideForm() {
  const [texts, setTexts] = useState({ low: "100 Hz", high: "400 Hz", lasts: "10 s" });
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const id = useId();
  const play = (isSweep: boolean) => {
    const low = typedValue(texts.low, fields.low);
    const high = isSweep ? typedValue(texts.high, fields.high) : low;
    const lasts = typedValue(texts.lasts, fields.lasts);
    for (const each of [low, high, lasts]) if (typeof each === "string") return setProblem(each);
    setProblem(undefined);
    takeSong({ kind: "glide", from: Number(low), to: Number(high), lasts: Number(lasts) });
  };
  return (
    <fieldset class="glide" aria-label="One tone, for measuring">
      {(["low", "high", "lasts"] as const).map((key) => (
        <label key={key}>
          <span>{fields[key].name}</span>
          <input
            size={7}
            value={texts[key]}
            autocomplete="off"
            spellcheck={false}
            aria-invalid={problem?.startsWith(`${fields[key].name}:`) ?? false}
            aria-describedby={`${id}-problem`}
            onInput={(event) => setTexts({ ...texts, [key]: event.currentTarget.value })}
          />
        </label>
      ))}
      <button type="button" onClick={() => play(false)}>
        Steady tone
      </button>
      <button type="button" onClick={() => play(true)}>
        Sweep
      </button>
      <p id={`${id}-problem`} class="wrong small" role={problem === undefined ? undefined : "alert"}>
        {problem}
      </p>
    </fieldset>
  );
}
