/** The burst as one picture: waveforms, gates, who conducts, and who has the energy, stacked on one time axis. Reads on paper and in a dark hall. */

import { formatQuantity } from "../units/format.ts";
import type { BurstStudy, Waveforms } from "../workbench/burst-contract.ts";
import { axisNumbers } from "./axis-numbers.ts";
import { conductingStrip } from "./burst-plot-strip.ts";
import { burstPlotStyle } from "./burst-plot-style.ts";
import { escaped } from "./escaped.ts";
import type { Scale } from "./plots.ts";
import { ticks } from "./plots-ticks.ts";
import { type LaidTrack, layWaveforms, marksOf, tracksOf } from "./waveform.ts";
import { energyAt, energyStack, greatestStack } from "./waveform-energy.ts";
import { extremes } from "./waveform-reduce.ts";
import { waveformSummary } from "./waveform-words.ts";

/** How every such picture begins: by this a program knows its own. */
export const burstPlotBeginning = '<svg xmlns="http://www.w3.org/2000/svg" data-picture="coilwright-burst"';

const width = 1000;
const margin = { left: 74, right: 118, top: 80, bottom: 44 };
const trackHeight = 112;
const gap = 22;
const stripHeight = 26;
const energyHeight = 128;
const right = width - margin.right;

interface Levels {
  /** Overcurrent setting [A], where there is one. */
  readonly overcurrent?: number;
}

/**
 * The picture of a burst whose waveforms were sampled.
 * @param name  of the coil
 * @returns     a whole SVG document that refers to nothing outside itself; empty where there are no waveforms
 */
export function burstPlot({ name, study, overcurrent }: { name: string; study: BurstStudy } & Levels): string {
  const { waveforms } = study;
  if (waveforms === undefined) return "";
  const span = { from: 0, to: waveforms.time.at(-1) ?? 0 };
  const laid = layWaveforms({
    tracks: tracksOf(waveforms, "waves"),
    span,
    width,
    trackHeight,
    margin,
    gap,
    fitted: false,
  });
  const stripTop = laid.height - margin.bottom + gap;
  const energyTop = stripTop + stripHeight + gap;
  const bottom = energyTop + energyHeight;
  const height = bottom + margin.bottom;
  const marks = marksOf(study);
  return [
    `${burstPlotBeginning} viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" font-family="sans-serif" font-size="11">`,
    `<title>${escaped(`One burst of ${name}`)}</title>`,
    `<desc>${escaped(waveformSummary(study, marks, span))}</desc>`,
    `<style>${burstPlotStyle}</style>`,
    `<rect class="sheet" width="${width}" height="${height}"/>`,
    words(margin.left, 22, titleOf(name, study), 'class="title" font-size="15"'),
    timeAxis(laid.x, { top: margin.top, bottom }),
    ...laid.tracks.map((track) =>
      trackOf(track, { study, x: laid.x, ...(overcurrent === undefined ? {} : { overcurrent }) }),
    ),
    conductingStrip({ waves: waveforms, x: laid.x, top: stripTop, height: stripHeight, left: margin.left, right }),
    energyTrack(waveforms, laid.x, energyTop),
    ...marks.map(({ name: mark, time }, index) => markOf(mark, { at: laid.x.toPage(time), row: index % 3, bottom })),
    "</svg>\n",
  ].join("\n");
}

function titleOf(name: string, { setting, figures }: BurstStudy): string {
  const bus = figures.get("bus.voltage")?.value ?? setting.busVoltage;
  const of = (value: number, unit: string) => formatQuantity(value, unit, { digits: 4, trim: true });
  const rate = setting.rate > 0 ? `, ${of(setting.rate, "1")} a second` : "";
  const parts = [
    `${of(setting.onTime, "s")}${rate}`,
    `bus ${of(bus, "V")}`,
    setting.streamer ? "streamer counted" : "no streamer",
    ...(setting.senseReversed ? ["sense reversed"] : []),
  ];
  return `${name}: one burst of ${parts.join(", ")}`;
}

function timeAxis(x: Scale, { top, bottom }: { top: number; bottom: number }): string {
  const { numbers, unit } = axisNumbers(x.ticks, "s", x.high);
  const lines = x.ticks.map((tick, index) => {
    const at = x.toPage(tick);
    return `<path class="hair" d="M${at.toFixed(1)} ${top}V${bottom}"/>${words(at, bottom + 15, numbers[index] ?? "", middle)}`;
  });
  return [...lines, words((margin.left + right) / 2, bottom + 33, `time, ${unit}`, middle)].join("\n");
}

function trackOf(track: LaidTrack, { study, x, overcurrent }: { study: BurstStudy; x: Scale } & Levels): string {
  const { id, name, unit, top, bottom, y, path } = track;
  const gate = unit === "1";
  const { numbers, unit: shown } = axisNumbers(y.ticks, unit, y.high);
  const scale = gate
    ? []
    : y.ticks.map((tick, index) => {
        const at = y.toPage(tick);
        return `<path class="hair" d="M${margin.left} ${at.toFixed(1)}H${right}"/>${words(margin.left - 7, at + 4, numbers[index] ?? "", end)}`;
      });
  return [
    ...scale,
    ...levelsOf(id, study, overcurrent).map((level) => levelLine(level, { y, top, bottom })),
    ...(id === "primaryCurrent" ? [envelopeLine(study, { x, y })] : []),
    `<path class="line ${id}" d="${path}"/>`,
    `<path class="axis" d="M${margin.left} ${top}V${bottom}"/>`,
    gate
      ? words(right + 8, (top + bottom) / 2 + 4, name, 'class="name"')
      : words(margin.left, top - 6, `${name}, ${shown}`, 'class="name"'),
    ...(gate ? [] : [peakWords(track)]),
  ].join("\n");
}

function peakWords({ time, values, unit, top }: LaidTrack): string {
  const [low, high] = extremes(time, values, { from: time[0] ?? 0, to: time[time.length - 1] ?? 0 });
  const peak = formatQuantity(Math.max(Math.abs(low), Math.abs(high)), unit, { digits: 3 });
  return `${words(right + 8, top + 11, "peak")}${words(right + 8, top + 25, peak, 'class="name"')}`;
}

interface Level {
  readonly name: string;
  readonly value: number;
}

function levelsOf(id: string, { setting }: BurstStudy, overcurrent: number | undefined): readonly Level[] {
  const both = (name: string, value: number): Level[] => [
    { name, value },
    { name: "", value: -value },
  ];
  if (id === "primaryCurrent" && overcurrent !== undefined) return both("trip", overcurrent);
  if (id === "topVoltage" && setting.streamer && setting.breakoutVoltage > 0)
    return both("breakout", setting.breakoutVoltage);
  return [];
}

function levelLine({ name, value }: Level, { y, top, bottom }: { y: Scale; top: number; bottom: number }): string {
  const at = y.toPage(value);
  // A level far outside says nothing about this burst but that it is not reached.
  if (at < top || at > bottom) return "";
  return `<path class="level" d="M${margin.left} ${at.toFixed(1)}H${right}"/>${name === "" ? "" : words(right + 8, Math.max(at + 4, top + 40), name)}`;
}

/** The peaks of the half-cycles joined above and below. */
function envelopeLine({ envelope }: BurstStudy, { x, y }: { x: Scale; y: Scale }): string {
  if (envelope.length < 2) return "";
  const side = (sign: number) =>
    `M${envelope.map(([time, current]) => `${x.toPage(time).toFixed(1)} ${y.toPage(sign * Math.abs(current)).toFixed(1)}`).join("L")}`;
  return `<path class="envelope" d="${side(1)}${side(-1)}"/>`;
}

function energyTrack(waves: Waveforms, x: Scale, top: number): string {
  const bottom = top + energyHeight;
  const most = 1.04 * greatestStack(waves);
  if (!(most > 0)) return "";
  const y: Scale = {
    low: 0,
    high: most,
    toPage: (value) => bottom - (value / most) * energyHeight,
    fromPage: (position) => ((bottom - position) / energyHeight) * most,
    ticks: ticks({ low: 0, high: most, wanted: 4 }),
  };
  const span = { from: 0, to: waves.time.at(-1) ?? 0 };
  const { numbers, unit } = axisNumbers(y.ticks, "J", y.high);
  return [
    ...energyStack({ waves, span, x, y }).map(({ part, path }) => `<path class="part ${part}" d="${path}"/>`),
    ...y.ticks.map((tick, index) => words(margin.left - 7, y.toPage(tick) + 4, numbers[index] ?? "", end)),
    `<path class="axis" d="M${margin.left} ${top}V${bottom}H${right}"/>`,
    words(margin.left, top - 6, `energy that the bus has given, ${unit}`, 'class="name"'),
    ...partWords(waves, span.to, { y, top, bottom }),
  ].join("\n");
}

/** Names beside the bands at the end, each with its share, moved apart where they would cover each other. */
function partWords(
  waves: Waveforms,
  at: number,
  { y, top, bottom }: { y: Scale; top: number; bottom: number },
): string[] {
  let sum = 0;
  const named = energyAt(waves, at).parts.flatMap(({ part, name, energy, share }) => {
    const line = y.toPage(sum + Math.max(0, energy) / 2) + 4;
    sum += Math.max(0, energy);
    return share < 0.01 ? [] : [{ part, line, says: `${name} ${Math.round(100 * share)} %` }];
  });
  const lines = apart(
    named.map(({ line }) => line),
    { least: top + 8, most: bottom, spacing: 13 },
  );
  return named.map(({ part, says }, index) => {
    const line = lines[index] ?? bottom;
    return `<rect class="part ${part}" x="${right + 8}" y="${(line - 8).toFixed(1)}" width="8" height="8"/>${words(right + 20, line, says)}`;
  });
}

/** Heights of lines of words, lowest on the page first, no two nearer than `spacing`, inside the limits where there is room. */
function apart(
  heights: readonly number[],
  { least, most, spacing }: { least: number; most: number; spacing: number },
): readonly number[] {
  const lines = [...heights];
  lines.forEach((line, index) => {
    lines[index] = Math.min(line, index === 0 ? most : (lines[index - 1] ?? most) - spacing);
  });
  for (let index = lines.length - 1; index >= 0; index--) {
    const above = index === lines.length - 1 ? least : (lines[index + 1] ?? least) + spacing;
    lines[index] = Math.max(lines[index] ?? above, above);
  }
  return lines;
}

function markOf(name: string, { at, row, bottom }: { at: number; row: number; bottom: number }): string {
  const top = margin.top - 18 - 12 * row;
  // A word at the right edge reads to the left.
  const beside = at > right - 90 ? `${words(at - 4, top - 2, name, end)}` : words(at + 4, top - 2, name);
  return `<path class="mark" d="M${at.toFixed(1)} ${(top - 10).toFixed(1)}V${bottom}"/>${beside}`;
}

const middle = 'text-anchor="middle"';
const end = 'text-anchor="end"';
const words = (x: number, y: number, text: string, more = "") =>
  `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}"${more === "" ? "" : ` ${more}`}>${escaped(text)}</text>`;
