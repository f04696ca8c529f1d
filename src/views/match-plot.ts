/** A record over its prediction, with what is left beneath: plain data in page units. */
import type { Overlay, Prediction } from "../workbench/match-overlay.ts";
import type { Scale } from "./plots.ts";
import { layWaveforms, type WaveLayout, type WaveTrack } from "./waveform.ts";
import { type Span, wavePath } from "./waveform-reduce.ts";

export type { Overlay, Prediction } from "../workbench/match-overlay.ts";

export interface LaidOverlay {
  readonly x: Scale;
  readonly height: number;
  readonly measured: LaidLine;
  /** On the scale of the record; absent where there is no prediction. */
  readonly predicted?: LaidLine;
  readonly residual?: LaidLine;
}

export interface LaidLine {
  readonly name: string;
  readonly unit: string;
  readonly y: Scale;
  readonly top: number;
  readonly bottom: number;
  readonly path: string;
}

const channelNames: Readonly<Record<string, string>> = {
  primaryCurrent: "primary current",
  pickupLoop: "pickup",
  bridgeOutput: "bridge output",
  unknown: "signal",
};

/** What a channel shows, in words: `pickup (loop)`. */
export const overlayName = ({ role, channel }: Overlay): string => `${channelNames[role] ?? "signal"} (${channel})`;

/** Times that a picture of it spans. */
export const overlaySpan = ({ time }: Overlay): Span => ({ from: time[0] ?? 0, to: time.at(-1) ?? 0 });

/** Lays a record over its prediction; the residual is on the same scale per page unit of value as it is below. */
export function layOverlay(
  overlay: Overlay,
  { prediction, ...layout }: Omit<WaveLayout, "tracks"> & { readonly prediction: Prediction },
): LaidOverlay {
  const { time, measured, unit } = overlay;
  const predicted = overlay.predicted[prediction];
  const track = (id: string, name: string, values: Float64Array): WaveTrack => ({
    id,
    name,
    unit: unit === "1" ? "" : unit,
    time,
    values,
    held: false,
    bothSides: true,
  });
  const residual = predicted && measured.map((value, n) => value - predicted.values[n]!);
  const laid = layWaveforms({
    ...layout,
    tracks: [
      track("measured", overlayName(overlay), measured),
      ...(residual ? [track("residual", "record less prediction", residual)] : []),
    ],
  });
  const [main, rest] = laid.tracks;
  const { x, height } = laid;
  if (main === undefined) throw new RangeError("an overlay has a record");
  return {
    x,
    height,
    measured: main,
    ...(predicted
      ? {
          predicted: {
            ...main,
            name: prediction === "drawn" ? "as drawn" : "as fitted",
            path: wavePath({ time, values: predicted.values, span: layout.span, x, y: main.y }),
          },
        }
      : {}),
    ...(rest ? { residual: rest } : {}),
  };
}
