/** A planned programme on its way out: sound for headphones, gate pulses for a sound card, a program for a controller. */
import { type FirmwareFile, firmwareOfSchedule, firmwareOfSerial } from "../programme/firmware/index.ts";
import { type GateError, type GateSettings, gateOf, type PreviewSettings, previewOf, wavFile } from "../sound/index.ts";
import type { ProgrammeStudy } from "./programme-contract.ts";

export { type Fate, fateOf, type Reason, reasons } from "../programme/index.ts";
export type { GateError, GateSettings } from "../sound/index.ts";

/**
 * A preview of the sound as a WAV file, piece by piece. It begins softly; it is a model of clicks, not a level.
 * @throws OutOfDomain  as `previewOf` and `wavFile`
 */
export function previewWav(
  { plan }: ProgrammeStudy,
  settings: PreviewSettings = {},
): Iterable<Uint8Array<ArrayBuffer>> {
  const { rate, frames, chunks } = previewOf(plan.schedule, settings);
  return wavFile(chunks(), { rate, frames, coding: "int16" });
}

/**
 * The gate pulses as a WAV file for a sound card that drives an optical transmitter, with what that does to the times.
 * @throws OutOfDomain  as `gateOf` and `wavFile`
 */
export function gateWav(
  { plan }: ProgrammeStudy,
  settings: GateSettings,
): { readonly pieces: Iterable<Uint8Array<ArrayBuffer>>; readonly error: GateError } {
  const { rate, frames, error, chunks } = gateOf(plan.schedule, settings);
  return { pieces: wavFile(chunks(), { rate, frames, coding: "int16" }), error };
}

/** Longest time without a heartbeat, and longest note, for a controller that follows serial MIDI. */
const serial = { heartbeat: 0.4, longestNote: 20 };

/**
 * The program of a controller that plays the schedule and holds the limits by itself.
 * @returns undefined where there are no limits to hold
 * @throws OutOfDomain  a limit that the controller cannot hold, or a schedule that does not fit its memory
 */
export function scheduleFirmware(
  { plan, limits }: ProgrammeStudy,
  { idlesHigh = false }: { readonly idlesHigh?: boolean } = {},
): readonly FirmwareFile[] | undefined {
  if (limits === undefined) return undefined;
  const { onTime, gap, duty, rate } = limits;
  return firmwareOfSchedule({ limits: { onTime, gap, duty, rate }, idlesHigh, ...serial }, plan.schedule);
}

/**
 * The program of a controller that follows MIDI on its serial line while the heartbeat lasts, and holds the limits by itself.
 * @returns undefined where there are no limits to hold
 * @throws OutOfDomain  a limit that the controller cannot hold
 */
export function serialFirmware(
  { limits }: Pick<ProgrammeStudy, "limits">,
  { idlesHigh = false }: { readonly idlesHigh?: boolean } = {},
): readonly FirmwareFile[] | undefined {
  if (limits === undefined) return undefined;
  const { onTime, gap, duty, rate } = limits;
  return firmwareOfSerial({ limits: { onTime, gap, duty, rate }, idlesHigh, ...serial });
}
