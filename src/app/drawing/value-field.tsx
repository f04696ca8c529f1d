/** The field in which a dimension is typed over. Enter takes the text, Escape leaves it, and what is wrong is said below. */
import { useLayoutEffect, useRef, useState } from "preact/hooks";
import type { Dimension } from "../../views/drawing.ts";
import { Words } from "../frame/words.tsx";
import { drawable } from "../state/document.ts";
import { editing } from "../state/view.ts";
import { commitTyped } from "./change-dimension.ts";

const help = "number and unit, then ± tolerance and (measured), (datasheet), (drawn) or (guessed)";

interface Properties {
  readonly dimension: Dimension;
  readonly left: number;
  readonly top: number;
  /** Called with the path when the field closes, to give the focus back. */
  readonly onClosed: (path: string) => void;
}

export function ValueField({ dimension, left, top, onClosed }: Properties) {
  const field = useRef<HTMLInputElement>(null);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const written = drawable.value?.file.provenances.get(dimension.path)?.text ?? dimension.text;
  // before the next key arrives
  useLayoutEffect(() => field.current?.select(), []);
  const close = () => {
    editing.value = undefined;
    onClosed(dimension.path);
  };
  const take = () => {
    const typed = field.current?.value ?? "";
    if (typed.trim() === written) return close();
    const wrong = commitTyped(dimension, typed);
    setProblem(wrong);
    if (wrong === undefined) onClosed(dimension.path);
  };
  return (
    <form
      class="value-field"
      ref={(element) => {
        element?.style.setProperty("left", `${left}px`);
        element?.style.setProperty("top", `${top}px`);
      }}
      onSubmit={(event) => {
        event.preventDefault();
        take();
      }}
      onKeyDown={(event) => {
        if (event.key !== "Escape") return;
        event.preventDefault();
        event.stopPropagation();
        close();
      }}
    >
      <label for="value-field">{dimension.says}</label>
      <input
        id="value-field"
        ref={field}
        defaultValue={written}
        size={24}
        autocomplete="off"
        spellcheck={false}
        aria-invalid={problem !== undefined}
        aria-describedby="value-field-help"
      />
      <p
        id="value-field-help"
        role={problem === undefined ? undefined : "alert"}
        class={problem === undefined ? "help" : "wrong"}
      >
        <Words text={problem ?? help} />
      </p>
      <div class="actions">
        <button type="submit">Take it</button>
        <button type="button" onClick={close}>
          Leave it
        </button>
      </div>
    </form>
  );
}
