/** Moves the phase along while a picture plays. */
import { useFrames } from "../frame/use-frames.ts";
import { phase, playing, shown } from "./pictures-state.ts";

/** For those who asked for no motion: so many stills to a round, each for so long [ms]. */
const stills = 12;
const stillFor = 1200;

export const onward = (by: number): void => {
  phase.value = (((phase.peek() + by) % 1) + 1) % 1;
};

export const usePlaying = (): void =>
  useFrames(playing, {
    onward: (by) => onward(by / ((shown.peek()?.round ?? 10) * 1000)),
    toNextStill: () => onward(1 / stills),
    stillFor,
  });
