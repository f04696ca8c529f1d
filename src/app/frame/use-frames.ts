/** Moves something along while it plays: by the clock, or in stills where motion is not wanted. */
import type { ReadonlySignal } from "@preact/signals";
import { useEffect } from "preact/hooks";

interface Motion {
  /** Called for each frame with the time since the last one [ms], at most a tenth of a second. */
  readonly onward: (by: number) => void;
  /** A step from one still to the next. */
  readonly toNextStill: () => void;
  /** How long each still stands [ms]. */
  readonly stillFor: number;
}

export function useFrames(playing: ReadonlySignal<boolean>, { onward, toNextStill, stillFor }: Motion): void {
  const isPlaying = playing.value;
  useEffect(() => {
    if (!isPlaying) return;
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) {
      const timer = setInterval(toNextStill, stillFor);
      return () => clearInterval(timer);
    }
    let before: number | undefined;
    let request = requestAnimationFrame(function go(now) {
      // A pause counts at once, not when the page is next laid out.
      if (!playing.peek()) return;
      onward(Math.min(now - (before ?? now), 100));
      before = now;
      request = requestAnimationFrame(go);
    });
    return () => cancelAnimationFrame(request);
  }, [isPlaying]);
}
