/** Moves the phase along while a picture plays. */
import { useEffect } from "preact/hooks";
import { phase, playing, shown } from "./pictures-state.ts";

/** For those who asked for no motion: so many stills to a round, each for so long [ms]. */
const stills = 12;
const stillFor = 1200;

export const onward = (by: number): void => {
  phase.value = (((phase.peek() + by) % 1) + 1) % 1;
};

export function usePlaying(): void {
  const isPlaying = playing.value;
  useEffect(() => {
    if (!isPlaying) return;
    if (matchMedia("(prefers-reduced-motion: reduce)").matches) {
      const timer = setInterval(() => onward(1 / stills), stillFor);
      return () => clearInterval(timer);
    }
    let before: number | undefined;
    let request = requestAnimationFrame(function go(now) {
      // A pause counts at once, not when the page is next laid out.
      if (!playing.peek()) return;
      const round = (shown.peek()?.round ?? 10) * 1000;
      onward(Math.min(now - (before ?? now), 100) / round);
      before = now;
      request = requestAnimationFrame(go);
    });
    return () => cancelAnimationFrame(request);
  }, [isPlaying]);
}
