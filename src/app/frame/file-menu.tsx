/** Files and examples. Opens under its button; Escape and a press elsewhere close it. */
import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { GestureButton } from "../gestures/gesture-button.tsx";
import { examples, openExample } from "../state/filing.ts";

const titleOf = (text: string, name: string) => /^name:\s*(.+)$/m.exec(text)?.[1]?.replace(/\s+#.*$/, "") ?? name;

export function FileMenu() {
  const [open, setOpen] = useState(false);
  const menu = useRef<HTMLDivElement>(null);
  const button = useRef<HTMLButtonElement>(null);
  const close = useCallback(() => setOpen(false), []);
  useEffect(() => {
    if (!open) return;
    menu.current?.querySelector("button")?.focus();
    const outside = (event: PointerEvent) => {
      if (!(event.target instanceof Node) || menu.current?.parentElement?.contains(event.target) !== true) close();
    };
    const onEscape = (event: KeyboardEvent) => {
      if (event.key !== "Escape") return;
      event.preventDefault();
      close();
      button.current?.focus();
    };
    document.addEventListener("pointerdown", outside);
    document.addEventListener("keydown", onEscape, true);
    return () => {
      document.removeEventListener("pointerdown", outside);
      document.removeEventListener("keydown", onEscape, true);
    };
  }, [open, close]);
  return (
    <div class="menu">
      <button
        ref={button}
        type="button"
        class="plain"
        aria-expanded={open}
        aria-controls="file-menu"
        onClick={() => setOpen(!open)}
      >
        File
      </button>
      <div id="file-menu" ref={menu} class="menu-sheet" hidden={!open}>
        <ul>
          {(["open", "saveAs", "text", "theme", "keys"] as const).map((id) => (
            <li key={id}>
              <GestureButton id={id} onDone={close} />
            </li>
          ))}
        </ul>
        <h2>Demo coils</h2>
        <ul>
          {examples.value.map((example) => (
            <li key={example.name}>
              <button
                type="button"
                class="plain"
                onClick={() => {
                  openExample(example);
                  close();
                }}
              >
                {titleOf(example.text, example.name)}
              </button>
            </li>
          ))}
        </ul>
      </div>
    </div>
  );
}
