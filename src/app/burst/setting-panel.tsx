/** The setting of the burst: moved here without touching the file, and written into it as one step when it is wanted there. */
import { writeQuantity } from "../../units/index.ts";
import type { BurstSetting } from "../../workbench/burst-contract.ts";
import { commitEdits, drawable } from "../state/document.ts";
import { notice } from "../state/view.ts";
import { burst, move, moved } from "./burst-state.ts";
import { SettingSlider } from "./setting-slider.tsx";

/** As the file would have it: a round number in the unit of the trade. */
const written = {
  onTime: (value: number) => writeQuantity({ value: Number(value.toPrecision(6)), unit: "µs" }),
  rate: (value: number) => writeQuantity({ value: Number(value.toPrecision(6)), unit: "Hz" }),
};

function writeIntoFile({ onTime, rate }: Required<Pick<BurstSetting, "onTime" | "rate">>): void {
  const coil = drawable.peek()?.coil;
  // a file without an interrupter gets both at once: one alone could not be read
  const isNew = coil?.interrupter === undefined;
  const now = moved.peek();
  const edits = [
    ...(isNew || now.onTime !== undefined ? [{ path: "interrupter.onTime", value: written.onTime(onTime) }] : []),
    ...(isNew || now.rate !== undefined ? [{ path: "interrupter.rate", value: written.rate(rate) }] : []),
  ];
  const says = edits.map(({ path, value }) => `${path} ${value}`).join(", ");
  const done = commitEdits("Write the setting into the file", edits);
  notice.value = "problem" in done ? `Not written: ${done.problem}` : `Written into the file: ${says}`;
  if ("problem" in done) return;
  const { onTime: _, rate: __, ...others } = now;
  moved.value = others;
}

const roundUp = (value: number, to: number) => Math.ceil(value / to) * to;

function busWords(isHeld: boolean, hasSupply: boolean): string {
  if (!hasSupply) return "the file has no supply: there is no bus";
  return isHeld ? "held at this before each burst" : "the mains' peak, lowered by the ripple";
}

export function SettingPanel() {
  const study = burst.value?.study;
  const coil = drawable.value?.coil;
  const now = moved.value;
  if (study === undefined) return null;
  const asked = { ...study.setting, ...now };
  const { limits, onTime = 0, rate = 0 } = coil?.interrupter ?? {};
  const longest = roundUp(Math.max(2 * onTime, 1.3 * (limits?.onTime ?? 0), 200e-6), 50e-6);
  const quickest = roundUp(Math.max(2 * rate, 1.1 * (limits?.rate ?? 0), 400), 100);
  const mains = coil?.supply;
  const peak = mains ? (mains.rectifier === "doubler" ? 2 : 1) * Math.SQRT2 * mains.mains.voltage : 400;
  const over = (is: boolean, words: string) => (is ? words : undefined);
  const duty = asked.onTime * asked.rate;
  const anyMoved = Object.keys(now).length > 0;
  // a file without an interrupter gets a whole one
  const lacks = coil?.interrupter === undefined && !(asked.onTime > 0 && asked.rate > 0);
  const writable = !lacks && (now.onTime !== undefined || now.rate !== undefined);
  return (
    <section class="settings" aria-labelledby="setting-title">
      <header>
        <h2 id="setting-title">Setting</h2>
        <p class="small">{anyMoved ? "moved away from the file, which is as it was" : "as in the file"}</p>
      </header>
      <SettingSlider
        name="On-time"
        dimension="time"
        unit="s"
        value={asked.onTime}
        most={longest}
        step={1e-6}
        isMoved={now.onTime !== undefined}
        remark={over(limits !== undefined && asked.onTime > limits.onTime, "longer than the interrupter's own limit")}
        onMove={(value) => move("onTime", value)}
        onBack={() => move("onTime", undefined)}
      />
      <SettingSlider
        name="Rate"
        dimension="frequency"
        unit="Hz"
        value={asked.rate}
        most={quickest}
        step={1}
        isMoved={now.rate !== undefined}
        remark={
          over(limits !== undefined && asked.rate > limits.rate, "quicker than the interrupter's own limit") ??
          `duty ${(duty * 100).toPrecision(3)} %${over(limits !== undefined && duty > limits.duty, ", over the interrupter's own limit") ?? ""}`
        }
        onMove={(value) => move("rate", value)}
        onBack={() => move("rate", undefined)}
      />
      <SettingSlider
        name="Bus voltage"
        dimension="voltage"
        unit="V"
        value={asked.busVoltage}
        most={roundUp(peak * 1.1, 10)}
        step={1}
        isMoved={now.busVoltage !== undefined}
        remark={busWords(now.busVoltage !== undefined, mains !== undefined)}
        onMove={(value) => move("busVoltage", value)}
        onBack={() => move("busVoltage", undefined)}
      />
      <div class="choices">
        <label>
          <input
            type="checkbox"
            checked={asked.streamer}
            onInput={(event) => move("streamer", event.currentTarget.checked ? undefined : false)}
          />
          streamer loads the top
        </label>
        <label>
          <input
            type="checkbox"
            checked={asked.senseReversed}
            onInput={(event) => move("senseReversed", event.currentTarget.checked || undefined)}
          />
          sense leads reversed
        </label>
        <fieldset class="modes-choice">
          <legend>modes of the secondary</legend>
          {([1, 2, 3] as const).map((count) => (
            <label key={count}>
              <input
                type="radio"
                name="modes"
                checked={asked.modes === count}
                onInput={() => move("modes", count === 1 ? undefined : count)}
              />
              {count}
            </label>
          ))}
        </fieldset>
      </div>
      <div class="actions">
        <button type="button" aria-disabled={!writable} onClick={() => writable && writeIntoFile(asked)}>
          Write this setting into the file
        </button>
        <button
          type="button"
          aria-disabled={!anyMoved}
          onClick={() => {
            moved.value = {};
          }}
        >
          Back to the file
        </button>
      </div>
      <p class="small">
        {lacks
          ? "The file has no interrupter: give an on-time and a rate, and both can be written into it."
          : "Only on-time and rate are written; the rest is there to try."}
      </p>
    </section>
  );
}
