/** Playing by hand: the computer's keyboard, a MIDI keyboard, a finger. */
import { keyboardOn, longAt, lowest, moveOctave, rows, switchKeyboard } from "./computer-keys.ts";
import { held, keySays, strike } from "./keys.ts";
import { hasMidi, keyboards, leaveMidi, listenToMidi, midiTrouble } from "./midi-input.ts";
import { keyName } from "./roll-draw.ts";

export function KeysPanel() {
  return (
    <section class="by-hand" aria-labelledby="hand-title">
      <h2 id="hand-title">By hand</h2>
      <p class="small">
        A key sounds here as the plan would send it alone. Chords share the limits once they are in the song, or at the
        controller.
      </p>
      <div class="cluster">
        <label class="check">
          <input
            type="checkbox"
            checked={keyboardOn.value}
            onChange={(event) => switchKeyboard(event.currentTarget.checked)}
          />
          Computer keyboard plays
        </label>
        <button type="button" onClick={() => moveOctave(-1)}>
          Octave down
        </button>
        <button type="button" onClick={() => moveOctave(1)}>
          Octave up
        </button>
        {hasMidi() && <MidiButton />}
      </div>
      <Rows />
      <p class="key-says" role="status">
        {held.value.size > 0
          ? `${[...held.value]
              .sort((a, b) => a - b)
              .map(keyName)
              .join(" ")}. ${keySays.value}`
          : keySays.value}
      </p>
    </section>
  );
}

function MidiButton() {
  const names = keyboards.value;
  return (
    <>
      {names === undefined ? (
        <button type="button" onClick={() => void listenToMidi()}>
          Hear a MIDI keyboard
        </button>
      ) : (
        <button type="button" onClick={leaveMidi}>
          Hear no MIDI keyboard
        </button>
      )}
      <span class="small" role="status">
        {midiTrouble.value ||
          (names === undefined ? "" : names.length === 0 ? "None is plugged in." : `Heard: ${names.join(", ")}.`)}
      </span>
    </>
  );
}

/** The two rows as they lie on the keyboard; for a finger too. */
function Rows() {
  return (
    <fieldset class="piano" aria-label="Keys of the piano" data-on={keyboardOn.value || undefined}>
      {rows.map(({ octave, long, short }) => (
        <div key={octave} class="piano-row">
          {short.map(([code, cap, behind]) => (
            <PianoKey
              key={code}
              cap={cap}
              column={2 * behind + 2}
              isShort
              pitch={lowest.value + 12 * octave + longAt(behind) + 1}
            />
          ))}
          {long.map(([code, cap], place) => (
            <PianoKey
              key={code}
              cap={cap}
              column={2 * place + 1}
              isShort={false}
              pitch={lowest.value + 12 * octave + longAt(place)}
            />
          ))}
        </div>
      ))}
    </fieldset>
  );
}

interface PianoKeyProperties {
  readonly cap: string;
  readonly pitch: number;
  readonly column: number;
  readonly isShort: boolean;
}

/** Out of the order of Tab: the keyboard itself plays them. */
function PianoKey({ cap, pitch, column, isShort }: PianoKeyProperties) {
  const up = () => {
    if (held.peek().has(pitch)) strike({ key: pitch, velocity: 0 });
  };
  return (
    <button
      type="button"
      tabIndex={-1}
      class={isShort ? "short" : "long"}
      style={{ gridColumn: `${column} / span 2` }}
      aria-pressed={held.value.has(pitch)}
      onPointerDown={(event) => {
        event.preventDefault();
        strike({ key: pitch, velocity: 0.8 });
      }}
      onPointerUp={up}
      onPointerLeave={up}
      onPointerCancel={up}
    >
      <span>{cap}</span> <small class={isShort ? "only-heard" : undefined}>{keyName(pitch)}</small>
    </button>
  );
}
