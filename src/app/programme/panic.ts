/** Silence at once, whatever sounds: preview, keys, controller. */
import { signal } from "@preact/signals";

/** How often it was pressed: what is read aloud changes with it. */
export const panics = signal(0);

const silencers = new Set<() => void>();

/** Something that can sound says how it is silenced. */
export function onPanic(silence: () => void): void {
  silencers.add(silence);
}

/** Every silencer is called, also where one of them fails. */
export function panic(): void {
  panics.value++;
  for (const silence of silencers) {
    try {
      silence();
    } catch {
      // The others still have to be called.
    }
  }
}

/** Escape is the panic key wherever the focus is; it goes on to whatever else it closes. Called once. */
export function listenForPanic(): void {
  window.addEventListener(
    "keydown",
    (event) => {
      if (event.key === "Escape") panic();
    },
    true,
  );
}
