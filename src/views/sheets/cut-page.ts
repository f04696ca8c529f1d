/** Tracks as items of a page at true size, and their words. */
import type { Metre } from "../../units/si.ts";
import type { Box, Item, PathItem, Tone } from "./page.ts";
import { weight } from "./page.ts";
import { boundsOfTracks, type Layer, type Track, trackSegments } from "./track.ts";

const mm = 1e-3;

const looks: Readonly<Record<Layer, Omit<PathItem, "kind" | "segments">>> = {
  outline: { width: weight.line, tone: "ink" },
  drill: { width: weight.line, tone: "stop" },
  guide: { width: weight.thin, tone: "guide", dash: [4 * mm, 1 * mm, 0.6 * mm, 1 * mm] },
  "copper-upper": { fill: "copper" },
  "copper-lower": { fill: "steel" },
};

export const trackItems = (tracks: readonly Track[]): readonly Item[] =>
  tracks.map(
    (track): Item => ({ kind: "path", segments: trackSegments(track), ...looks[track.layer], role: track.layer }),
  );

/** A cross through a point, to set a centre punch on. */
export const punch = ({ x, y }: { x: Metre; y: Metre }, size: Metre, tone: Tone = "stop"): Item => ({
  kind: "path",
  segments: [
    { kind: "move", to: { x: x - size, y: -y } },
    { kind: "line", to: { x: x + size, y: -y } },
    { kind: "move", to: { x, y: -y - size } },
    { kind: "line", to: { x, y: -y + size } },
  ],
  width: weight.thin,
  tone,
});

/** Room of tracks on a page, with an edge. */
export function boxOfTracks(tracks: readonly Track[], edge: Metre): Box {
  const { left, right, low, high } = boundsOfTracks(tracks);
  return { x: left - edge, y: -high - edge, width: right - left + 2 * edge, height: high - low + 2 * edge };
}
