/** The waveforms in view as a picture of its own: dark lines on white, to print or to put into a text. */

import type { BurstStudy } from "../workbench/burst-contract.ts";
import { axisNumbers } from "./axis-numbers.ts";
import { escaped } from "./escaped.ts";
import { type LaidTrack, layWaveforms, marksOf, tracksOf, type WaveView } from "./waveform.ts";
import type { Span } from "./waveform-reduce.ts";
import { timeText } from "./waveform-words.ts";

const width = 1000;
const margin = { left: 76, right: 16, top: 66, bottom: 40 };
const inks: Readonly<Record<string, string>> = {
  primaryCurrent: "#94450f",
  bridgeVoltage: "#4c5b66",
  tankVoltage: "#0b5263",
  topVoltage: "#b02a55",
  busVoltage: "#4c5b66",
  gateUpper: "#1b2226",
  gateLower: "#1b2226",
};

const text = (x: number, y: number, words: string, more = "") =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" ${more}>${escaped(words)}</text>`;

function trackMarkup({ id, name, short, unit, top, bottom, y, path }: LaidTrack): string {
  const right = width - margin.right;
  const { numbers, unit: shown } = axisNumbers(y.ticks, unit, y.high);
  const lines = y.ticks.map((tick) => `<path class="hair" d="M${margin.left} ${y.toPage(tick).toFixed(1)}H${right}"/>`);
  const words = y.ticks.map((tick, n) =>
    text(margin.left - 6, y.toPage(tick) + 4, numbers[n] ?? "", 'text-anchor="end"'),
  );
  const isGate = unit === "1";
  return [
    ...(isGate ? [] : [...lines, ...words]),
    `<path class="axis" d="M${margin.left} ${top}V${bottom}"/>`,
    `<path d="${path}" fill="none" stroke="${inks[id] ?? "#1b2226"}" stroke-width="1.3"/>`,
    isGate
      ? text(margin.left - 6, (top + bottom) / 2 + 4, short ?? name, 'text-anchor="end"')
      : text(margin.left, top - 5, `${name}, ${shown}`, 'font-weight="700"'),
  ].join("\n");
}

/** @returns a whole SVG document; nothing outside it is referred to */
export function waveformSvg({
  study,
  name,
  span,
  view,
  fitted,
}: {
  readonly study: BurstStudy;
  /** Of the coil. */
  readonly name: string;
  readonly span: Span;
  readonly view: WaveView;
  readonly fitted: boolean;
}): string {
  const { waveforms, setting } = study;
  if (waveforms === undefined) return "";
  const laid = layWaveforms({
    tracks: tracksOf(waveforms, view),
    span,
    width,
    trackHeight: 120,
    margin,
    gap: 22,
    fitted,
  });
  const { x, height } = laid;
  const times = axisNumbers(x.ticks, "s", x.high);
  const base = height - margin.bottom;
  const marks = marksOf(study).filter(({ time }) => time >= span.from && time <= span.to);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="sans-serif" font-size="11" fill="#1b2226">
<style>.hair{stroke:#d5d0c0;fill:none}.axis{stroke:#1b2226;fill:none}.mark{stroke:#48535a;stroke-dasharray:4 3;fill:none}</style>
<rect width="${width}" height="${height}" fill="#fff"/>
${text(margin.left, 16, `${name}: on-time ${timeText(setting.onTime, 3)}, ${Number(setting.rate.toPrecision(4))} bursts a second, bus ${Number(setting.busVoltage.toPrecision(4))} V, streamer ${setting.streamer ? "on" : "off"}`, 'font-size="13"')}
${x.ticks.map((tick, n) => `<path class="hair" d="M${x.toPage(tick).toFixed(1)} ${margin.top}V${base}"/>${text(x.toPage(tick), base + 15, times.numbers[n] ?? "", 'text-anchor="middle"')}`).join("\n")}
${text((margin.left + width - margin.right) / 2, base + 32, `time, ${times.unit}`, 'text-anchor="middle"')}
${laid.tracks.map(trackMarkup).join("\n")}
${marks.map(({ name: mark, time }, n) => `<path class="mark" d="M${x.toPage(time).toFixed(1)} ${margin.top - 18}V${base}"/>${text(Math.min(x.toPage(time), width - 90), margin.top - 20 - (n % 2) * 11, mark)}`).join("\n")}
</svg>
`;
}
