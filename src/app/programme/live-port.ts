/** The line to a controller that runs the live firmware: bytes out, and a heartbeat for as long as somebody is at the switch. */
import { signal } from "@preact/signals";
import { onStroke } from "./keys.ts";
import { baudRate, heartbeat, heartbeatEvery, silence, songBytes, strokeBytes } from "./live-bytes.ts";
import { heard, playing } from "./player.ts";
import { options, shown } from "./programme-state.ts";

/** The part of Web Serial that is used here. */
interface SerialPort {
  readonly writable: WritableStream<Uint8Array> | null;
  open(options: { readonly baudRate: number }): Promise<void>;
  close(): Promise<void>;
}
interface Serial {
  requestPort(): Promise<SerialPort>;
}

const serial = (): Serial | undefined => (navigator as { readonly serial?: Serial }).serial;
export const hasSerial = (): boolean => serial() !== undefined;

export const isOpen = signal(false);
/** The operator's switch: pulses may come. */
export const isArmed = signal(false);
/** Whether the song that plays is sent too. */
export const sendsSong = signal(false);
export const liveSays = signal("");

let port: SerialPort | undefined;
let writer: WritableStreamDefaultWriter<Uint8Array> | undefined;
/** Bytes that the line has not taken yet. */
let waiting = 0;
/** About 30 ms of the line: more is no longer live. */
const mostWaiting = 96;

let beat: ReturnType<typeof setInterval> | undefined;
let follow: ReturnType<typeof setInterval> | undefined;
/** How often the song is looked at [ms]. */
const followEvery = 20;

function write(bytes: readonly number[]): void {
  if (writer === undefined || bytes.length === 0) return;
  waiting += bytes.length;
  writer.write(Uint8Array.from(bytes)).then(
    () => {
      waiting -= bytes.length;
    },
    () => void closeLine("The line was lost."),
  );
}

function send(bytes: readonly number[]): void {
  if (!isArmed.peek()) return;
  if (waiting + bytes.length > mostWaiting) {
    // What waits would be heard late: it is thrown away, and the controller falls silent without a heartbeat.
    void closeLine("The line did not keep up and was closed.");
    return;
  }
  write(bytes);
}

const isWatched = (): boolean => document.visibilityState === "visible" && document.hasFocus();

/** Asks for a line, by a press. */
export async function openLine(): Promise<void> {
  const found = serial();
  if (found === undefined) return;
  try {
    const asked = await found.requestPort();
    await asked.open({ baudRate });
    if (asked.writable === null) throw new Error("it takes no bytes");
    port = asked;
    writer = asked.writable.getWriter();
    waiting = 0;
    isOpen.value = true;
    liveSays.value = "The line is open. Nothing is sent until the switch is on.";
  } catch (error) {
    liveSays.value =
      error instanceof DOMException && error.name === "NotFoundError"
        ? "No line was chosen."
        : `The line could not be opened: ${error instanceof Error ? error.message : String(error)}`;
  }
}

/** Throws away what waits, and closes. */
export async function closeLine(says = "The line is closed."): Promise<void> {
  disarm(says);
  const [oldWriter, oldPort] = [writer, port];
  writer = undefined;
  port = undefined;
  isOpen.value = false;
  try {
    await oldWriter?.abort();
  } catch {
    // It is gone already.
  }
  try {
    await oldPort?.close();
  } catch {
    // It is gone already.
  }
}

/** Turns the switch on: heartbeats from now on. */
export function arm(): void {
  if (!isOpen.peek() || isArmed.peek() || !isWatched()) return;
  isArmed.value = true;
  liveSays.value = "Live: what is played goes to the controller.";
  const pulse = () => {
    if (!isWatched()) disarm("Off: the page was out of sight.");
    else send(heartbeat);
  };
  pulse();
  beat = setInterval(pulse, heartbeatEvery);
  follow = setInterval(followSong, followEvery);
}

/** Turns the switch off and asks for silence. Without a heartbeat the controller falls silent in any case. */
export function disarm(says: string): void {
  clearInterval(beat);
  clearInterval(follow);
  before = undefined;
  if (!isArmed.peek()) return;
  isArmed.value = false;
  liveSays.value = says;
  write(silence);
}

let before: number | undefined;
/** A jump in the song [s]: what sounds is ended. */
const jump = 0.5;

function followSong(): void {
  const now = playing.peek() && sendsSong.peek() ? heard() : undefined;
  if (now === undefined) {
    if (before !== undefined) send(silence);
    before = undefined;
    return;
  }
  const programme = shown.peek();
  const isJump = before !== undefined && (now < before || now - before > jump);
  if (isJump) send(silence);
  if (programme !== undefined && before !== undefined && !isJump)
    send(songBytes(programme.notes, { from: before, to: now, muted: options.peek().muted ?? [] }));
  before = isJump || before === undefined ? now : Math.max(before, now);
}

/** Sends keys, and lets go when nobody looks; called once. */
export function followLine(): void {
  onStroke((stroke) => send(strokeBytes(stroke)));
  window.addEventListener("blur", () => disarm("Off: the window lost the focus."));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") disarm("Off: the page was hidden.");
  });
  window.addEventListener("pagehide", () => disarm("Off: the page was left."));
}
