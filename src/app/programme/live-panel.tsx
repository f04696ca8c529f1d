/** What is played goes to a controller, while the operator's switch is on. */
import { arm, closeLine, disarm, hasSerial, isArmed, isOpen, liveSays, openLine, sendsSong } from "./live-port.ts";

const cautions = [
  "The controller needs the live firmware of this coil: it holds the limits by itself, whatever comes over the line. This page holds none.",
  "The controller's own key is opened once and then closed, last of all: before that no pulse comes.",
  "A hand stays at the coil's own stop, with nobody else inside the line. Silence and Esc here are no emergency stop.",
  "Pulses end within 0.4 s after the heartbeat ends: at Silence, when the window loses the focus or is hidden, when the cable is pulled. The switch then stays off until somebody turns it on.",
  "Keys alone are sent, and six at once are heard; bends and noise are not sent.",
];

export function LivePanel() {
  if (!hasSerial()) return null;
  return (
    <section class="live" aria-labelledby="live-title" data-armed={isArmed.value || undefined}>
      <h2 id="live-title">Live to the controller</h2>
      <ul class="live-cautions">
        {cautions.map((says) => (
          <li key={says}>{says}</li>
        ))}
      </ul>
      <div class="cluster">
        {isOpen.value ? (
          <button type="button" onClick={() => void closeLine()}>
            Close the line
          </button>
        ) : (
          <button type="button" onClick={() => void openLine()}>
            Open a serial line…
          </button>
        )}
        <button
          type="button"
          role="switch"
          class="arm"
          aria-checked={isArmed.value}
          disabled={!isOpen.value}
          onClick={() => {
            if (isArmed.value) disarm("Off: nothing is sent.");
            else arm();
          }}
        >
          {isArmed.value ? "Operator's switch: on" : "Operator's switch: off"}
        </button>
        <label class="check">
          <input
            type="checkbox"
            checked={sendsSong.value}
            onChange={(event) => {
              sendsSong.value = event.currentTarget.checked;
            }}
          />
          Send the song that plays too
        </label>
      </div>
      <p role="status">{liveSays.value}</p>
    </section>
  );
}
