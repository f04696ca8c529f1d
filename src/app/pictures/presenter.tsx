/** One picture on the whole screen, for an audience: next and back by key. */
import { useEffect, useRef } from "preact/hooks";
import { PictureFrame } from "./picture-frame.tsx";
import { playing, presenting, show, shown, shownIndex } from "./pictures-state.ts";

export function Presenter({ onStep }: { readonly onStep: (by: number) => void }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element === null) return;
    element.showModal();
    // Where the browser refuses the whole screen, the dialog fills its window.
    void element.requestFullscreen?.().catch(() => undefined);
    const leave = () => {
      if (document.fullscreenElement === null) presenting.value = false;
    };
    document.addEventListener("fullscreenchange", leave);
    playing.value = true;
    return () => {
      document.removeEventListener("fullscreenchange", leave);
      playing.value = false;
      if (document.fullscreenElement !== null) void document.exitFullscreen().catch(() => undefined);
    };
  }, []);
  const keys: Readonly<Record<string, () => void>> = {
    ArrowRight: () => show(shownIndex.peek() + 1),
    PageDown: () => show(shownIndex.peek() + 1),
    Enter: () => show(shownIndex.peek() + 1),
    ArrowLeft: () => show(shownIndex.peek() - 1),
    PageUp: () => show(shownIndex.peek() - 1),
    " ": () => {
      playing.value = !playing.peek();
    },
    ArrowUp: () => onStep(0.02),
    ArrowDown: () => onStep(-0.02),
    Home: () => show(0),
    End: () => show(-1),
  };
  return (
    <dialog
      ref={dialog}
      class="presenter"
      aria-label={shown.value?.title ?? "Picture"}
      onClose={() => {
        presenting.value = false;
      }}
      onKeyDown={(event) => {
        const act = keys[event.key];
        const presses = event.key === " " || event.key === "Enter";
        if (act === undefined || (presses && event.target instanceof HTMLButtonElement)) return;
        event.preventDefault();
        act();
      }}
    >
      <PictureFrame />
      <p class="presenter-keys">
        <span>→ next, ← back, space play or pause, Esc end</span>
        <button type="button" onClick={() => dialog.current?.close()}>
          End
        </button>
      </p>
    </dialog>
  );
}
