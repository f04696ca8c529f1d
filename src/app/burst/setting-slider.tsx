/** One number of the setting: a slider for the hand and a field for the exact value. Neither changes the file. */
import { useId, useState } from "preact/hooks";
import { formatQuantity, readQuantity } from "../../units/index.ts";

interface Properties {
  readonly name: string;
  readonly dimension: "time" | "frequency" | "voltage";
  /** SI symbol. */
  readonly unit: string;
  readonly value: number;
  readonly most: number;
  readonly step: number;
  /** Moved away from the file. */
  readonly isMoved: boolean;
  /** What is to be known about this value, e.g. that it is over a limit. */
  readonly remark: string | undefined;
  readonly onMove: (value: number) => void;
  readonly onBack: () => void;
}

/** The value of a typed text, or what is wrong with it. A bare number counts in the unit that is shown. */
function typedValue(text: string, { dimension, unit, value, most }: Properties): number | string {
  const shownUnit = formatQuantity(value, unit).split(" ")[1] ?? unit;
  const whole = /^[\d.,]+$/.test(text.trim()) ? `${text.trim()} ${shownUnit}` : text;
  const reading = readQuantity(whole, { dimension });
  if ("problem" in reading) return `${reading.problem.what}; expected ${reading.problem.expected}`;
  const { value: typed } = reading.quantity;
  if (typed < 0 || typed > most) return `expected 0 to ${formatQuantity(most, unit, { digits: 4, trim: true })}`;
  return typed;
}

export function SettingSlider(properties: Properties) {
  const { name, unit, value, most, step, isMoved, remark, onMove, onBack } = properties;
  const id = useId();
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const text = formatQuantity(value, unit, { digits: 4, trim: true });
  const take = () => {
    if (typed === undefined || typed.trim() === text) return setTyped(undefined);
    const got = typedValue(typed, properties);
    if (typeof got === "string") return setProblem(got);
    setProblem(undefined);
    setTyped(undefined);
    onMove(got);
  };
  return (
    <div class="setting" data-moved={isMoved || undefined}>
      <label for={id}>{name}</label>
      <input
        class="exact"
        aria-label={`${name}, exact value`}
        value={typed ?? text}
        size={9}
        autocomplete="off"
        spellcheck={false}
        aria-invalid={problem !== undefined}
        aria-describedby={`${id}-remark`}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === "Enter") take();
          if (event.key !== "Escape" || typed === undefined) return;
          event.preventDefault();
          setTyped(undefined);
          setProblem(undefined);
        }}
      />
      <input
        id={id}
        type="range"
        min={0}
        max={most}
        step={step}
        value={value}
        aria-valuetext={text}
        onInput={(event) => {
          setTyped(undefined);
          setProblem(undefined);
          onMove(event.currentTarget.valueAsNumber);
        }}
      />
      <button
        type="button"
        class="square back"
        disabled={!isMoved}
        aria-label={`${name} back to the file`}
        title="back to the file"
        onClick={onBack}
      >
        ↺
      </button>
      <p
        id={`${id}-remark`}
        class={problem === undefined ? "small" : "wrong small"}
        role={problem ? "alert" : undefined}
      >
        {problem ?? remark}
      </p>
    </div>
  );
}
