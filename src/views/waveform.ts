/** The waveforms of a burst as stacked tracks on one time axis: plain data in page units, for a screen or a sheet. */
import type { BurstStudy, Waveforms } from "../workbench/burst-contract.ts";
import type { Scale } from "./plots.ts";
import { ticks } from "./plots-ticks.ts";
import { envelopeOf, extremes, type Span, wavePath } from "./waveform-reduce.ts";

export type WaveView = "waves" | "envelope";

export interface WaveTrack {
  readonly id: string;
  readonly name: string;
  /** For a narrow margin. */
  readonly short?: string;
  /** SI; `1` for gates. */
  readonly unit: string;
  readonly time: ArrayLike<number>;
  readonly values: ArrayLike<number>;
  readonly held: boolean;
  /** Drawn on both sides of zero; a gate and an envelope are not. */
  readonly bothSides: boolean;
}

interface Named {
  readonly id: string;
  readonly name: string;
  readonly short?: string;
  readonly unit: string;
  readonly held?: true;
  readonly of: (waves: Waveforms) => Float64Array;
}

const swings: readonly Named[] = [
  { id: "primaryCurrent", name: "primary current", unit: "A", of: (w) => w.primaryCurrent },
  { id: "bridgeVoltage", name: "bridge voltage", unit: "V", held: true, of: (w) => w.bridgeVoltage },
  { id: "tankVoltage", name: "tank voltage", unit: "V", of: (w) => w.tankVoltage },
  { id: "topVoltage", name: "top-load voltage", unit: "V", of: (w) => w.topVoltage },
];
const gates: readonly Named[] = [
  { id: "gateUpper", name: "upper gates", short: "upper", unit: "1", held: true, of: (w) => w.gateUpper },
  { id: "gateLower", name: "lower gates", short: "lower", unit: "1", held: true, of: (w) => w.gateLower },
];

/** Tracks of a view: every waveform as it is, or the peak of each half-cycle and the bus below them. */
export function tracksOf(waves: Waveforms, view: WaveView): WaveTrack[] {
  if (view === "waves") {
    return [...swings, ...gates].map(({ of, held = false, ...rest }) => ({
      ...rest,
      time: waves.time,
      values: of(waves),
      held,
      bothSides: rest.unit !== "1",
    }));
  }
  const peaks = swings
    .filter(({ held }) => !held)
    .map(({ of, id, name, unit }) => ({
      id,
      name: `peaks of ${name}`,
      unit,
      ...envelopeOf(waves.time, of(waves)),
      held: false,
      bothSides: false,
    }));
  const { time, busVoltage: values } = waves;
  return [...peaks, { id: "busVoltage", name: "bus voltage", unit: "V", time, values, held: false, bothSides: false }];
}

/** A moment of the burst worth a line through all tracks. */
export interface WaveMark {
  readonly id: "breakout" | "notch" | "trip" | "onTime" | "gatesOff";
  readonly name: string;
  readonly time: number;
}

/** The moments that a study knows, in the order of time. */
export function marksOf({ figures, setting, breakoutTime, tripTime, waveforms }: BurstStudy): WaveMark[] {
  const at = (id: WaveMark["id"], name: string, time: number | undefined): WaveMark[] =>
    time === undefined ? [] : [{ id, name, time }];
  const end = waveforms?.time.at(-1) ?? 0;
  return [
    ...at("breakout", "breakout", breakoutTime),
    ...at("notch", "notch", figures.get("burst.notchTime")?.value),
    ...at("trip", "overcurrent trip", tripTime),
    ...at("onTime", "end of on-time", setting.onTime),
    ...at("gatesOff", "gates off", figures.get("burst.driveTime")?.value),
  ]
    .filter(({ time }) => time > 0 && time <= end)
    .sort((a, b) => a.time - b.time);
}

export interface LaidTrack extends WaveTrack {
  readonly top: number;
  readonly bottom: number;
  readonly y: Scale;
  readonly path: string;
}

export interface LaidWaveforms {
  readonly x: Scale;
  readonly tracks: readonly LaidTrack[];
  readonly height: number;
}

export interface WaveLayout {
  readonly tracks: readonly WaveTrack[];
  readonly span: Span;
  readonly width: number;
  /** Height of a track that swings; a gate gets a quarter of it. */
  readonly trackHeight: number;
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  /** Between tracks. */
  readonly gap: number;
  /** Heights by the greatest value within the span instead of the whole burst. */
  readonly fitted: boolean;
}

const wholeOf = ({ time }: WaveTrack): Span => ({ from: time[0] ?? 0, to: time[time.length - 1] ?? 0 });

function limitsOf(track: WaveTrack, span: Span, fitted: boolean): readonly [number, number] {
  if (track.unit === "1") return [-0.15, 1.15];
  const [low, high] = extremes(track.time, track.values, fitted ? span : wholeOf(track));
  const most = Math.max(Math.abs(low), Math.abs(high)) || 1;
  if (track.bothSides) return [-1.06 * most, 1.06 * most];
  // a bus that sags by a few volts would be a straight line on a scale from zero
  return low > 0.7 * high ? [low - 0.1 * (high - low) - 1e-9, high + 0.1 * (high - low) + 1e-9] : [0, 1.06 * most];
}

function scale([low, high]: readonly [number, number], start: number, end: number, wanted: number): Scale {
  const perUnit = (end - start) / (high - low);
  return {
    low,
    high,
    toPage: (value) => start + (value - low) * perUnit,
    fromPage: (position) => low + (position - start) / perUnit,
    ticks: ticks({ low, high, wanted }),
  };
}

/** The time axis of a picture of `width`. */
export const timeScale = ({ span, width, margin }: Pick<WaveLayout, "span" | "width" | "margin">): Scale =>
  scale([span.from, span.to], margin.left, width - margin.right, Math.max(3, (width - margin.left) / 110));

/** Lays the tracks out below each other. */
export function layWaveforms({ tracks, span, width, trackHeight, margin, gap, fitted }: WaveLayout): LaidWaveforms {
  const x = timeScale({ span, width, margin });
  let top = margin.top;
  const laid = tracks.map((track): LaidTrack => {
    const bottom = top + (track.unit === "1" ? Math.round(trackHeight / 4) : trackHeight);
    const y = scale(limitsOf(track, span, fitted), bottom, top, track.unit === "1" ? 1 : Math.max(4, trackHeight / 30));
    const { time, values, held } = track;
    const done = { ...track, top, bottom, y, path: wavePath({ time, values, held, span, x, y }) };
    top = bottom + gap;
    return done;
  });
  return { x, tracks: laid, height: top - gap + margin.bottom };
}

/** Keeps a span inside the record and no shorter than `least`, about its middle. */
export function spanWithin({ from, to }: Span, end: number, least: number): Span {
  const length = Math.min(Math.max(to - from, Math.min(least, end)), end);
  const start = Math.min(Math.max((from + to - length) / 2, 0), end - length);
  return { from: start, to: start + length };
}

/** The span from one zero of the primary current to the next around a time: one half-cycle. */
export function halfCycleAt({ time, primaryCurrent }: Waveforms, at: number): Span {
  const crossings: number[] = [0];
  for (let n = 1; n < time.length; n++) {
    const before = primaryCurrent[n - 1] ?? 0;
    const now = primaryCurrent[n] ?? 0;
    if (before * now < 0) {
      const start = time[n - 1] ?? 0;
      crossings.push(start + ((time[n] ?? 0) - start) * (before / (before - now)));
    }
  }
  crossings.push(time.at(-1) ?? 0);
  const right = Math.max(
    1,
    crossings.findIndex((each) => each > at),
  );
  return { from: crossings[right - 1] ?? 0, to: crossings[right] ?? time.at(-1) ?? 0 };
}
