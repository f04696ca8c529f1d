/** Waveforms in words: what a picture shows, and what a cursor reads. */
import { formatQuantity } from "../units/format.ts";
import type { BurstStudy, Waveforms } from "../workbench/burst-contract.ts";
import type { WaveMark, WaveTrack } from "./waveform.ts";
import { energyAt } from "./waveform-energy.ts";
import { type Span, sampleAt } from "./waveform-reduce.ts";

export const timeText = (seconds: number, digits = 4) => formatQuantity(seconds, "s", { digits });

/** Value of a track at a time as it is read. */
export function trackText({ time, values, held, unit }: WaveTrack, at: number): string {
  const value = sampleAt(time, values, at, held);
  if (unit === "1") return value > 0.5 ? "on" : "off";
  return formatQuantity(value, unit, { digits: unit === "V" ? 4 : 3 });
}

/** One sentence about all tracks at a time, for a cursor that is heard. */
export const cursorText = (tracks: readonly WaveTrack[], at: number): string =>
  `${timeText(at)}: ${tracks.map((track) => `${track.name} ${trackText(track, at)}`).join(", ")}`;

/** What the waveforms of a study show, for those who hear the page. */
export function waveformSummary({ figures, envelope }: BurstStudy, marks: readonly WaveMark[], span: Span): string {
  const peak = envelope.reduce((most, [, current]) => Math.max(most, Math.abs(current)), 0);
  const top = figures.get("burst.peakTopVoltage");
  const halves = figures.get("burst.halfCycles");
  const parts = [
    `Waveforms from ${timeText(span.from)} to ${timeText(span.to)}`,
    halves ? `${formatQuantity(halves.value, "1", { digits: 3 })} half-cycles driven` : undefined,
    `primary current peaks at ${formatQuantity(peak, "A", { digits: 3 })}`,
    top ? `the top reaches ${formatQuantity(top.value, "V", { digits: 3 })}` : undefined,
    ...marks.map(({ name, time }) => `${name} at ${timeText(time, 3)}`),
  ];
  return `${parts.filter((part) => part !== undefined).join("; ")}.`;
}

/** Who has had the energy up to a time, in one sentence. */
export function energyText(waves: Pick<Waveforms, "time" | "energy">, at: number): string {
  const { given, drawn, returned, parts } = energyAt(waves, at);
  const joule = (value: number) => formatQuantity(value, "J", { digits: 3 });
  const shares = parts.map(({ name, energy, share }) => `${name} ${joule(energy)}, ${Math.round(share * 100)} %`);
  return `Up to ${timeText(at)} the bus has given ${joule(given)} (${joule(drawn)} drawn, ${joule(returned)} returned): ${shares.join("; ")}.`;
}
