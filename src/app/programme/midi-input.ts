/** A keyboard on Web MIDI: asked for by a press, heard while somebody wants it. */
import { signal } from "@preact/signals";
import { allUp, strike } from "./keys.ts";
import { strokeOf } from "./live-bytes.ts";

/** Names of the keyboards that are heard; undefined while nobody asked. */
export const keyboards = signal<readonly string[] | undefined>(undefined);
export const midiTrouble = signal("");

export const hasMidi = (): boolean => "requestMIDIAccess" in navigator;

let access: MIDIAccess | undefined;

function hear(event: MIDIMessageEvent): void {
  const stroke = event.data === null ? undefined : strokeOf(event.data);
  if (stroke === "all up") allUp();
  else if (stroke !== undefined) strike(stroke);
}

function bind(): void {
  if (access === undefined) return;
  const inputs = [...access.inputs.values()];
  for (const input of inputs) input.onmidimessage = hear;
  const names = inputs.filter(({ state }) => state !== "disconnected").map(({ name }) => name ?? "a keyboard");
  // A keyboard that is pulled out cannot let its keys go.
  if (names.length < (keyboards.peek()?.length ?? 0)) allUp();
  keyboards.value = names;
}

/** Asks the browser, which asks the person. */
export async function listenToMidi(): Promise<void> {
  try {
    access = await navigator.requestMIDIAccess();
    midiTrouble.value = "";
    access.onstatechange = bind;
    bind();
  } catch (error) {
    midiTrouble.value = `No keyboard is heard: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** Hears no keyboard any more. */
export function leaveMidi(): void {
  if (access !== undefined) {
    access.onstatechange = null;
    for (const input of access.inputs.values()) input.onmidimessage = null;
  }
  access = undefined;
  keyboards.value = undefined;
  allUp();
}
