/** Plays the preview of what was planned: pieces from the worker, one after the other, a little ahead. */
import { effect, signal } from "@preact/signals";
import { notice } from "../state/view.ts";
import { recordBench } from "../worker/bench.ts";
import { audioTime, cutSound, openDesk, renderedVolume } from "./audio.ts";
import { goTo, look, position, shown, sight } from "./programme-state.ts";

export const playing = signal(false);
export const looping = signal(false);

/** [s] */
const firstPiece = 0.5;
const piece = 2;
const ahead = 2.5;
const lead = 0.12;

let run = 0;
let sources = new Set<AudioBufferSourceNode>();
/** Time of the audio at which the first turn began, where it stands now. */
let anchor: number | undefined;
/** Since then, when the last turn is over; known as soon as it has been sent. */
let ends: number | undefined;

/** Where the ears are [s]; undefined while nothing sounds. */
export function heard(): number | undefined {
  const duration = shown.peek()?.duration ?? 0;
  if (anchor === undefined || duration === 0) return undefined;
  const elapsed = audioTime() - anchor;
  return ends !== undefined && elapsed >= ends ? duration : elapsed % duration;
}

const pause = (seconds: number) => new Promise((done) => setTimeout(done, 1000 * seconds));

function forget(): void {
  run++;
  for (const source of sources) source.stop();
  sources = new Set();
  anchor = undefined;
  ends = undefined;
}

/** Stops where it stands. */
export function stop(): void {
  forget();
  playing.value = false;
}

/** Silence at once; the position stays. */
export function silencePlayer(): void {
  cutSound();
  stop();
}

/** Plays from the position, or from the start where that is the end. */
export async function play(): Promise<void> {
  const programme = shown.peek();
  if (programme === undefined || programme.duration === 0) return;
  const { duration } = programme;
  if (position.peek() >= duration - 0.01) goTo(0);
  forget();
  const mine = run;
  playing.value = true;
  const from = position.peek();
  try {
    const { context, out } = await openDesk();
    let next = from;
    let turn = 0;
    while (mine === run) {
      const to = Math.min(duration, next + (anchor === undefined ? firstPiece : piece));
      const got = await recordBench().programmeSound({
        from: next,
        to,
        rate: context.sampleRate,
        volume: renderedVolume,
      });
      if (mine !== run || got === undefined) break;
      anchor ??= context.currentTime + lead - from;
      const buffer = context.createBuffer(1, got.samples.length, got.rate);
      buffer.copyToChannel(got.samples, 0);
      const source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(out);
      const when = anchor + turn * duration + got.from;
      const late = Math.max(0, context.currentTime - when);
      if (late < buffer.duration) source.start(Math.max(when, context.currentTime), late);
      sources.add(source);
      source.onended = () => sources.delete(source);
      next = to;
      if (next >= duration) {
        const over = (turn + 1) * duration;
        ends = looping.peek() ? undefined : over;
        // Somebody may still want it again.
        while (mine === run && !looping.peek() && context.currentTime - anchor < over) await pause(0.05);
        if (!looping.peek()) break;
        ends = undefined;
        next = 0;
        turn++;
      }
      while (mine === run && anchor + turn * duration + next - context.currentTime > ahead) await pause(0.1);
    }
    if (mine === run) {
      stop();
      position.value = duration;
    }
  } catch (error) {
    if (mine === run) stop();
    notice.value = `There is no sound: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** Plays on from elsewhere; called when somebody moves the position. */
export function seek(at: number): void {
  goTo(at);
  if (playing.peek()) void play();
}

/** Keeps position and sight with the ears, and plays on with a new plan; called once. */
export function followPlayer(): void {
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  let last = 0;
  const step = (now: number) => {
    if (!playing.peek()) return;
    requestAnimationFrame(step);
    if (now - last < (calm.matches ? 500 : 30)) return;
    last = now;
    const at = heard();
    if (at === undefined) return;
    position.value = Math.max(0, Math.min(at, shown.peek()?.duration ?? 0));
    const { from, to } = sight.peek();
    // A page on, where the programme runs out of sight.
    if (position.value > to || position.value < from) look({ from: position.value, to: position.value + to - from });
  };
  effect(() => {
    if (playing.value) requestAnimationFrame(step);
  });
  let before = shown.peek();
  effect(() => {
    const now = shown.value;
    if (now === before) return;
    before = now;
    if (playing.peek()) void play();
  });
}
