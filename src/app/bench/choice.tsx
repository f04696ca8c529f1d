/** One out of a few, with its label. */
import { useId } from "preact/hooks";

interface Properties<V extends string> {
  readonly label: string;
  readonly value: V;
  readonly options: readonly (readonly [V, string])[];
  readonly onTake: (value: V) => void;
}

export function Choice<V extends string>({ label, value, options, onTake }: Properties<V>) {
  const id = useId();
  return (
    <div class="typed">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        onChange={(event) => {
          const found = options.find(([each]) => each === event.currentTarget.value);
          if (found !== undefined) onTake(found[0]);
        }}
      >
        {options.map(([each, says]) => (
          <option key={each} value={each}>
            {says}
          </option>
        ))}
      </select>
    </div>
  );
}
