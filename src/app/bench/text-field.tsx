/** A field for a word: taken on Enter or on leaving it. */
import { useId, useState } from "preact/hooks";

interface Properties {
  readonly label: string;
  readonly value: string;
  readonly onTake: (value: string) => void;
}

export function TextField({ label, value, onTake }: Properties) {
  const id = useId();
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const take = () => {
    const text = typed?.trim();
    setTyped(undefined);
    if (text !== undefined && text !== value) onTake(text);
  };
  return (
    <div class="typed">
      <label for={id}>{label}</label>
      <input
        id={id}
        value={typed ?? value}
        size={5}
        autocomplete="off"
        spellcheck={false}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={take}
        onKeyDown={(event) => event.key === "Enter" && take()}
      />
    </div>
  );
}
