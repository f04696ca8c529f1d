/** Keys that are held: each sounds as the plan would send it alone, and others may listen. */
import { effect, signal } from "@preact/signals";
import { notice } from "../state/view.ts";
import { recordBench } from "../worker/bench.ts";
import { openDesk, renderedVolume } from "./audio.ts";
import type { KeyStroke } from "./live-bytes.ts";
import type { KeySound } from "./programme-answer.ts";
import { planned } from "./programme-state.ts";

/** Keys that are down. */
export const held = signal<ReadonlySet<number>>(new Set());
/** What is to be known about the last key, e.g. that it sounds lower. */
export const keySays = signal("");

interface Sounding {
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
}

const sounding = new Map<number, Sounding>();
const sounds = new Map<number, KeySound>();
const listeners = new Set<(stroke: KeyStroke) => void>();

/** Somebody else who wants to hear of every stroke. */
export function onStroke(listen: (stroke: KeyStroke) => void): void {
  listeners.add(listen);
}

const withKey = (key: number, isHeld: boolean): ReadonlySet<number> => {
  const next = new Set(held.peek());
  if (isHeld) next.add(key);
  else next.delete(key);
  return next;
};

/** [s] */
const attack = 0.004;
const release = 0.012;

async function sound(key: number, velocity: number): Promise<void> {
  const { context, out } = await openDesk();
  let got = sounds.get(key);
  if (got === undefined) {
    got = await recordBench().programmeKey(key, { rate: context.sampleRate, volume: renderedVolume });
    if (got !== undefined) sounds.set(key, got);
  }
  if (got === undefined || got.samples.length === 0) {
    keySays.value = "This coil's limits let nothing through here.";
    return;
  }
  keySays.value =
    got.lowered > 0
      ? `It sounds ${got.lowered === 1 ? "an octave" : `${got.lowered} octaves`} lower: too high for rate or gap.`
      : "";
  if (!held.peek().has(key)) return;
  const buffer = context.createBuffer(1, got.samples.length, context.sampleRate);
  buffer.copyToChannel(got.samples, 0);
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.loop = true;
  const gain = context.createGain();
  gain.gain.setValueAtTime(0, context.currentTime);
  gain.gain.linearRampToValueAtTime(velocity, context.currentTime + attack);
  source.connect(gain).connect(out);
  source.start();
  fade(key);
  sounding.set(key, { source, gain });
}

function fade(key: number): void {
  const old = sounding.get(key);
  if (old === undefined) return;
  sounding.delete(key);
  const now = old.source.context.currentTime;
  old.gain.gain.cancelScheduledValues(now);
  old.gain.gain.setTargetAtTime(0, now, release / 3);
  old.source.stop(now + release);
}

/** A key goes down, or up where the velocity is 0. */
export function strike(stroke: KeyStroke): void {
  const { key, velocity } = stroke;
  const isDown = velocity > 0;
  if (isDown || held.peek().has(key)) for (const listen of listeners) listen(stroke);
  held.value = withKey(key, isDown);
  if (!isDown) {
    fade(key);
    return;
  }
  sound(key, velocity).catch((error: unknown) => {
    notice.value = `There is no sound: ${error instanceof Error ? error.message : String(error)}`;
  });
}

/** All keys are let go. */
export function allUp(): void {
  for (const key of [...held.peek()]) strike({ key, velocity: 0 });
}

/** Silence at once. */
export function silenceKeys(): void {
  allUp();
  for (const { source } of sounding.values()) source.stop();
  sounding.clear();
}

/** Another coil sounds differently; called once. */
export function followKeys(): void {
  let of = planned.peek()?.text;
  effect(() => {
    const now = planned.value?.text;
    if (now !== of) sounds.clear();
    of = now;
  });
}
