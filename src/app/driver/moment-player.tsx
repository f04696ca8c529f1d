/** One half-cycle explained, moment by moment: what conducts, where the current goes, where the energy is. */
import { useEffect } from "preact/hooks";
import { formatQuantity } from "../../units/index.ts";
import { keepers, momentText } from "../../views/half-cycle.ts";
import { timeText } from "../../views/waveform-words.ts";
import { burstEnd } from "../burst/time-window.ts";
import { useFrames } from "../frame/use-frames.ts";
import { greatest, halfCycle, moment, momentTime, moveBy, moveTo, playing } from "./driver-state.ts";
import { NearWaves } from "./near-waves.tsx";

/** Steps to a half-cycle, and how long one takes to play [ms]. */
const steps = 24;
const playFor = 2600;
/** For those who asked for no motion: so many stills to a half-cycle, each for so long [ms]. */
const stills = 8;
const stillFor = 1000;

const onward = (by: number) => {
  const next = momentTime.peek() + by;
  moveTo(next > burstEnd.peek() ? 0 : next);
};

function usePlaying(): void {
  useFrames(playing, {
    onward: (by) => onward((by / playFor) * halfCycle.peek()),
    toNextStill: () => onward(halfCycle.peek() / stills),
    stillFor,
  });
  useEffect(
    () => () => {
      playing.value = false;
    },
    [],
  );
}

function EnergyBars() {
  const now = moment.value;
  const most = greatest.value?.energy || 1;
  return (
    <table class="energy-bars">
      <caption class="only-heard">Where the energy is at this moment</caption>
      <tbody>
        {now &&
          keepers.map(({ keeper, name }) => {
            const energy = now.energy[keeper];
            return (
              <tr key={keeper} data-keeper={keeper}>
                <th scope="row">{name}</th>
                <td>
                  <svg width="100%" height="14" aria-hidden="true">
                    <rect class="ground" width="100%" height="14" />
                    <rect class={`keeper ${keeper}`} width={`${Math.max(0, energy / most) * 100}%`} height="14" />
                  </svg>
                </td>
                <td class="number">{formatQuantity(energy, "J", { digits: 3 })}</td>
              </tr>
            );
          })}
      </tbody>
    </table>
  );
}

export function MomentPlayer({ kind }: { readonly kind: "half" | "full" }) {
  usePlaying();
  const now = moment.value;
  const says = now ? momentText(now, kind) : "";
  const step = halfCycle.value / steps;
  const stop = () => {
    playing.value = false;
  };
  const by = (time: number) => () => {
    stop();
    moveBy(time);
  };
  return (
    <section class="moment-player" aria-labelledby="moment-title">
      <header class="wave-bar">
        <h2 id="moment-title">
          A half-cycle, slowly: <span class="number">{timeText(momentTime.value)}</span>
        </h2>
        <fieldset class="cluster" aria-label="Steps in time">
          <button type="button" onClick={by(-halfCycle.value)}>
            −½ cycle
          </button>
          <button type="button" onClick={by(-step)}>
            − step
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
          <button type="button" onClick={by(step)}>
            + step
          </button>
          <button type="button" onClick={by(halfCycle.value)}>
            +½ cycle
          </button>
        </fieldset>
      </header>
      <input
        class="moment-slider"
        type="range"
        aria-label="Moment of the burst"
        aria-valuetext={`${timeText(momentTime.value)}. ${says}`}
        min={0}
        max={burstEnd.value}
        step={burstEnd.value / 20_000}
        value={momentTime.value}
        onInput={(event) => {
          stop();
          moveTo(event.currentTarget.valueAsNumber);
        }}
        onKeyDown={(event) => {
          const keys: Readonly<Record<string, () => void>> = {
            ArrowRight: by(step),
            ArrowUp: by(step),
            ArrowLeft: by(-step),
            ArrowDown: by(-step),
            PageUp: by(halfCycle.value),
            PageDown: by(-halfCycle.value),
            " ": () => {
              playing.value = !playing.peek();
            },
          };
          const act = keys[event.key];
          if (act === undefined || event.ctrlKey || event.metaKey) return;
          event.preventDefault();
          act();
        }}
      />
      <p class="says" aria-live={playing.value ? "off" : "polite"}>
        {says}
      </p>
      <div class="pair">
        <NearWaves />
        <EnergyBars />
      </div>
    </section>
  );
}
