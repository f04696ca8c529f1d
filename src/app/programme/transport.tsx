/** Play, loop, position, loudness, and the panic key. */
import { greatestVolume, volume } from "./audio.ts";
import { panic, panics } from "./panic.ts";
import { looping, play, playing, seek, stop } from "./player.ts";
import { position, shown, unread } from "./programme-state.ts";

export function Transport() {
  const duration = shown.value?.duration ?? 0;
  const at = position.value;
  const says = `${at.toFixed(1)} s of ${duration.toFixed(1)} s`;
  return (
    <fieldset class="transport" aria-label="Preview">
      <button
        type="button"
        class="play"
        disabled={duration === 0 || (unread.value && !playing.value)}
        onClick={() => {
          if (playing.value) stop();
          else void play();
        }}
      >
        {playing.value ? "Stop" : "Play preview"}
      </button>
      <button
        type="button"
        aria-pressed={looping.value}
        onClick={() => {
          looping.value = !looping.value;
        }}
      >
        Loop
      </button>
      <label class="position">
        <span>Position</span>
        <input
          type="range"
          min={0}
          max={duration}
          step={0.01}
          value={at}
          aria-valuetext={says}
          onInput={(event) => seek(event.currentTarget.valueAsNumber)}
        />
        <output>{says}</output>
      </label>
      <label class="volume">
        <span>Volume</span>
        <input
          type="range"
          min={0}
          max={greatestVolume}
          step={0.01}
          value={volume.value}
          onInput={(event) => {
            volume.value = event.currentTarget.valueAsNumber;
          }}
        />
        <output>{volume.value.toFixed(2)}</output>
      </label>
      <button type="button" class="panic" aria-keyshortcuts="Escape" onClick={panic}>
        Silence <kbd>Esc</kbd>
      </button>
      <p class="only-heard" role="status">
        {panics.value > 0 && !playing.value ? "Silent." : ""}
      </p>
    </fieldset>
  );
}
