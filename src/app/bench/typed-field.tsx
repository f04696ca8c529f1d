/** A field for a quantity: taken on Enter or on leaving it, refused in words, empty for nothing. */
import { useId, useState } from "preact/hooks";
import { type Dimension, formatQuantity, readQuantity } from "../../units/index.ts";

interface Properties {
  readonly label: string;
  readonly dimension: Dimension;
  /** SI symbol. */
  readonly unit: string;
  readonly value: number | undefined;
  /** Of what was typed, which may be in any unit of the dimension. */
  readonly onTake: (value: number | undefined) => void;
  readonly placeholder?: string;
  readonly disabled?: boolean;
}

export function TypedField({ label, dimension, unit, value, onTake, placeholder, disabled = false }: Properties) {
  const id = useId();
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const text = value === undefined ? "" : formatQuantity(value, unit, { digits: 5, trim: true });
  const take = () => {
    if (typed === undefined || typed.trim() === text) return setTyped(undefined);
    const trimmed = typed.trim();
    if (trimmed !== "") {
      const reading = readQuantity(trimmed, { dimension });
      if ("problem" in reading) return setProblem(`${reading.problem.what}; expected ${reading.problem.expected}`);
      onTake(reading.quantity.value);
    } else onTake(undefined);
    setProblem(undefined);
    setTyped(undefined);
  };
  return (
    <div class="typed">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={typed ?? text}
        size={9}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        disabled={disabled}
        aria-invalid={problem !== undefined}
        aria-describedby={problem === undefined ? undefined : `${id}-problem`}
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
      {problem !== undefined && (
        <p id={`${id}-problem`} class="small wrong" role="alert">
          {problem}
        </p>
      )}
    </div>
  );
}
