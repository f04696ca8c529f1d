/** The voices: which sound, which come first; and what makes the song fit. */

import { quantities } from "../../catalogue/quantities.ts";
import { formatParts } from "../../units/index.ts";
import { compared } from "../../views/programme-words.ts";
import type { ShownProgramme } from "./programme-answer.ts";
import { muteVoice, options, setOption, setPriority, shown } from "./programme-state.ts";

/** Tones stand at 1 and noise at 0 where nothing is chosen. */
const places: readonly (readonly [value: string, says: string])[] = [
  ["", "usual"],
  ["3", "comes first"],
  ["2", "before others"],
  ["-1", "gives way"],
];

export function VoicesPanel() {
  const programme = shown.value;
  if (programme === undefined || programme.voices.length === 0) return null;
  const { muted = [], priorities = [] } = options.value;
  return (
    <section class="side-part" aria-labelledby="voices-title">
      <h2 id="voices-title">Voices</h2>
      <div class="table-scroll">
        <table class="voices">
          <thead>
            <tr>
              <th scope="col">voice</th>
              <th scope="col">sent</th>
              <th scope="col">short</th>
              <th scope="col">out</th>
              <th scope="col">where two meet</th>
            </tr>
          </thead>
          <tbody>
            {programme.voices.map(({ name, sent, trimmed, dropped }, voice) => (
              <tr key={name} data-tone={voice % 6}>
                <th scope="row">
                  <label>
                    <input
                      type="checkbox"
                      checked={!muted.includes(voice)}
                      aria-label={`${name} sounds`}
                      onChange={(event) => muteVoice(voice, !event.currentTarget.checked)}
                    />
                    <span class="tone" aria-hidden="true" />
                    {name}
                  </label>
                </th>
                <td class="number">{sent}</td>
                <td class="number">{trimmed}</td>
                <td class="number">{dropped}</td>
                <td>
                  <select
                    aria-label={`${name} where two pulses meet`}
                    value={priorities[voice] === undefined ? "" : String(priorities[voice])}
                    onChange={(event) => {
                      const { value } = event.currentTarget;
                      setPriority(voice, value === "" ? undefined : Number(value));
                    }}
                  >
                    {places.map(([value, says]) => (
                      <option key={value} value={value}>
                        {says}
                      </option>
                    ))}
                  </select>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <ShapingChoices />
    </section>
  );
}

function ShapingChoices() {
  const { transpose = 0, equalLoudness = true } = options.value;
  return (
    <div class="shaping">
      <label>
        <span>Transpose, semitones</span>
        <input
          type="number"
          min={-60}
          max={60}
          step={1}
          value={transpose}
          onChange={(event) => {
            const value = Math.round(event.currentTarget.valueAsNumber);
            setOption("transpose", Math.abs(value) <= 60 && value !== 0 ? value : undefined);
          }}
        />
      </label>
      <label class="check">
        <input
          type="checkbox"
          checked={equalLoudness}
          onChange={(event) => setOption("equalLoudness", event.currentTarget.checked ? undefined : false)}
        />
        All pitches equally loud
      </label>
    </div>
  );
}

function shownFigure(figures: ShownProgramme["figures"], id: string): string {
  const figure = figures.get(id);
  if (figure === undefined) return "–";
  const { number, unit } = formatParts(figure.value, figure.unit, { digits: quantities.get(id)?.display.digits ?? 4 });
  return unit === "" ? number : `${number}\u00a0${unit}`;
}

export function FitPanel() {
  const programme = shown.value;
  const fit = programme?.fit;
  return (
    <section class="side-part" aria-labelledby="fit-title">
      <h2 id="fit-title">Make it fit</h2>
      <label class="check">
        <input
          type="checkbox"
          checked={options.value.fit ?? false}
          onChange={(event) => setOption("fit", event.currentTarget.checked || undefined)}
        />
        Octaves, thinner chords, shorter pulses, until every limit is kept with little left out
      </label>
      {programme !== undefined && fit !== undefined && (
        <>
          <ul class="fit-steps">
            {fit.steps.map(({ says }) => (
              <li key={says}>{`${says[0]?.toUpperCase()}${says.slice(1)}.`}</li>
            ))}
          </ul>
          <table class="before-after">
            <thead>
              <tr>
                <th scope="col">figure</th>
                <th scope="col">before</th>
                <th scope="col">after</th>
              </tr>
            </thead>
            <tbody>
              {compared
                .filter((id) => programme.figures.has(id))
                .map((id) => (
                  <tr key={id}>
                    <th scope="row">{quantities.get(id)?.name ?? id}</th>
                    <td class="number">{shownFigure(fit.before.figures, id)}</td>
                    <td class="number">{shownFigure(programme.figures, id)}</td>
                  </tr>
                ))}
            </tbody>
          </table>
        </>
      )}
    </section>
  );
}
