/** The way to the headphones: made at the first press, cut at once. */
import { effect, signal } from "@preact/signals";

/** 0 to 1: peak of the longest pulse alone. It starts low, for whoever wears the headphones. */
export const volume = signal(0.1);
/** What the worker makes samples with; the rest is done by the gain. */
export const renderedVolume = 0.1;
/** Above this the sum of several voices could clip. */
export const greatestVolume = 0.6;

let context: AudioContext | undefined;
let master: GainNode | undefined;
let isFollowing = false;

export interface Desk {
  readonly context: AudioContext;
  readonly out: GainNode;
}

/** To be called from a press: browsers give sound to a hand only. */
export async function openDesk(): Promise<Desk> {
  context ??= new AudioContext();
  if (context.state !== "running") await context.resume();
  if (master === undefined) {
    master = context.createGain();
    master.gain.value = volume.peek() / renderedVolume;
    master.connect(context.destination);
  }
  if (!isFollowing) {
    isFollowing = true;
    effect(() => {
      const gain = volume.value / renderedVolume;
      if (master !== undefined && context !== undefined) master.gain.setTargetAtTime(gain, context.currentTime, 0.01);
    });
  }
  return { context, out: master };
}

/** Takes everything off the output, whatever still waits. */
export function cutSound(): void {
  master?.disconnect();
  master = undefined;
}

export const audioTime = (): number => context?.currentTime ?? 0;
