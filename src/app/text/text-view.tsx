/** The coil file itself, to be read and edited as text; findings stand at their lines. */
import { useEffect, useRef } from "preact/hooks";
import { Words } from "../frame/words.tsx";
import { findings as found } from "../state/answers.ts";
import { commitText, history, onDisk } from "../state/document.ts";
import { present } from "../state/history.ts";
import { sought, textShown } from "../state/view.ts";
import { LineNumbers } from "./line-numbers.tsx";

/** Start and end of a line, counted from 1, in a text. */
function rangeOfLine(text: string, line: number): readonly [number, number] {
  const lines = text.split("\n");
  const start = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  return [start, start + (lines[line - 1]?.length ?? 0)];
}

export function TextView() {
  const area = useRef<HTMLTextAreaElement>(null);
  const { text } = present(history.value);
  const lines = text.split("\n").length;
  const findings = found.value;

  useEffect(() => {
    const line = sought.value?.line;
    const element = area.current;
    if (line === undefined || element === null) return;
    const [start, end] = rangeOfLine(element.value, line);
    element.focus();
    element.setSelectionRange(start, end);
    const height = Number.parseFloat(getComputedStyle(element).lineHeight);
    element.closest(".text-scroll")?.scrollTo({ top: Math.max(0, (line - 4) * height) });
    sought.value = undefined;
  }, [sought.value]);

  return (
    <section class="text-view" aria-label="Coil file as text">
      <header>
        <h2>{onDisk.value.name}</h2>
        <button
          type="button"
          class="plain"
          onClick={() => {
            textShown.value = false;
          }}
        >
          Close the text
        </button>
      </header>
      <div class="text-scroll">
        <LineNumbers lines={lines} findings={findings} />
        <textarea
          ref={area}
          aria-label={`Text of ${onDisk.value.name}`}
          aria-describedby="text-problems"
          spellcheck={false}
          autocomplete="off"
          wrap="off"
          rows={lines + 1}
          value={text}
          onInput={(event) => commitText("Edit the text", event.currentTarget.value, "typing")}
        />
      </div>
      <ul id="text-problems" class="text-problems">
        {findings
          .filter(({ place }) => place !== undefined)
          .slice(0, 6)
          .map(({ rule, place, what, severity }) => (
            <li key={`${rule} ${what}`} class={severity}>
              <button
                type="button"
                class="quiet"
                onClick={() => {
                  sought.value = { path: "", line: place?.line };
                }}
              >
                line {place?.line}
              </button>
              <span>
                {severity}: <Words text={what} />
              </span>
            </li>
          ))}
      </ul>
    </section>
  );
}
