/** What both cursors read, and the difference. */

import { formatQuantity } from "../../units/index.ts";
import type { WaveTrack } from "../../views/waveform.ts";
import { sampleAt } from "../../views/waveform-reduce.ts";
import { timeText, trackText } from "../../views/waveform-words.ts";
import { active, cursors } from "./time-window.ts";

function differenceText({ time, values, held, unit }: WaveTrack, from: number, to: number): string {
  if (unit === "1") return "";
  return formatQuantity(sampleAt(time, values, to, held) - sampleAt(time, values, from, held), unit, { digits: 3 });
}

export function CursorTable({ tracks }: { readonly tracks: readonly WaveTrack[] }) {
  const { A, B } = cursors.value;
  const apart = B - A;
  return (
    <div class="scrolls">
      <table class="readings">
        <caption class="only-heard">What the cursors read</caption>
        <thead>
          <tr>
            <td />
            {(["A", "B"] as const).map((name) => (
              <th key={name} scope="col">
                <button
                  type="button"
                  class="quiet"
                  aria-pressed={active.value === name}
                  title={`A press on the plot moves cursor ${name}`}
                  onClick={() => {
                    active.value = name;
                  }}
                >
                  <span class={`flag cursor-${name}`}>{name}</span>
                  {active.value === name ? "moves with a press" : "take this one"}
                </button>
              </th>
            ))}
            <th scope="col">B − A</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">time</th>
            <td data-reading="time-A">{timeText(A)}</td>
            <td data-reading="time-B">{timeText(B)}</td>
            <td>
              {timeText(apart)}
              {apart !== 0 && <small> {formatQuantity(1 / Math.abs(apart), "Hz", { digits: 4 })}</small>}
            </td>
          </tr>
          {tracks.map((track) => (
            <tr key={track.id} data-reading={track.id}>
              <th scope="row">
                <span class={`swatch ${track.id}`} />
                {track.name}
              </th>
              <td>{trackText(track, A)}</td>
              <td>{trackText(track, B)}</td>
              <td>{differenceText(track, A, B)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
