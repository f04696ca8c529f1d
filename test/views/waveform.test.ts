import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { axisNumbers } from "../../src/views/axis-numbers.ts";
import type { Scale } from "../../src/views/plots.ts";
import { halfCycleAt, layWaveforms, marksOf, spanWithin, tracksOf } from "../../src/views/waveform.ts";
import { waveformCsv } from "../../src/views/waveform-csv.ts";
import { energyAt, energyStack } from "../../src/views/waveform-energy.ts";
import { envelopeOf, sampleAt, wavePath } from "../../src/views/waveform-reduce.ts";
import { waveformSvg } from "../../src/views/waveform-svg.ts";
import { cursorText, energyText, waveformSummary } from "../../src/views/waveform-words.ts";
import { burst, waves } from "./lectern-burst.ts";

const line = (low: number, high: number, start: number, end: number): Scale => ({
  low,
  high,
  toPage: (value) => start + ((value - low) / (high - low)) * (end - start),
  fromPage: (page) => low + ((page - start) / (end - start)) * (high - low),
  ticks: [],
});
const pointsOf = (path: string) =>
  [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const);
const end = waves.time.at(-1) ?? 0;

describe("a long record in few points", () => {
  const time = Float64Array.from({ length: 12_000 }, (_, n) => n / 12_000);
  // law: whatever stands out of a record stands out of its picture, and the picture has a few points a column
  test("keeps every peak, however narrow", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 11_998 }), fc.double({ min: 2, max: 9, noNaN: true }), (at, high) => {
        const values = Float64Array.from(time, (t) => Math.sin(2 * Math.PI * 300 * t));
        values[at] = high;
        const x = line(0, 1, 0, 600);
        const path = wavePath({ time, values, span: { from: 0, to: 1 }, x, y: line(0, 10, 0, 1000) });
        const points = pointsOf(path);
        expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(high * 100, 0);
        expect(points.length).toBeLessThan(4 * 600 + 3);
      }),
      { numRuns: 20 },
    );
  });

  test("goes from edge to edge of a span that begins and ends between samples", () => {
    const values = Float64Array.from(time, (t) => 10 * t);
    const span = { from: 0.30003, to: 0.30021 };
    const points = pointsOf(
      wavePath({ time, values, span, x: line(span.from, span.to, 0, 400), y: line(0, 10, 0, 1000) }),
    );
    // law: a straight line is drawn straight
    expect(points[0]).toEqual([0, 300]);
    expect(points.at(-1)).toEqual([400, 300.2]);
  });

  test("jumps upright where it is held, and only there", () => {
    const held = {
      time: [0, 1, 2],
      values: [0, 0, 1],
      span: { from: 0, to: 2 },
      x: line(0, 2, 0, 200),
      y: line(0, 1, 0, 100),
    };
    expect(wavePath({ ...held, held: true })).toContain("H200V100");
    expect(wavePath(held)).not.toContain("H");
    expect(sampleAt(held.time, held.values, 1.5, true)).toBe(0);
    expect(sampleAt(held.time, held.values, 1.5)).toBe(0.5);
  });

  // law: the peaks of a sine are its amplitude, one for every half-cycle
  test("has the envelope of its half-cycles", () => {
    const values = Float64Array.from(time, (t) => 3 * Math.sin(2 * Math.PI * 10 * t));
    const peaks = envelopeOf(time, values).values.slice(1);
    expect(peaks).toHaveLength(20);
    for (const peak of peaks) expect(peak).toBeCloseTo(3, 4);
  });
});

describe("the tracks of a burst", () => {
  test("stand below each other and share the time", () => {
    const laid = layWaveforms({
      tracks: tracksOf(waves, "waves"),
      span: { from: 0, to: end },
      width: 800,
      trackHeight: 80,
      margin: { left: 50, right: 10, top: 60, bottom: 40 },
      gap: 20,
      fitted: false,
    });
    for (const [n, track] of laid.tracks.entries()) {
      if (n > 0) expect(track.top).toBeGreaterThan(laid.tracks[n - 1]?.bottom ?? 0);
      for (const [x, y] of pointsOf(track.path)) {
        expect(x).toBeGreaterThanOrEqual(49.9);
        expect(x).toBeLessThanOrEqual(790.1);
        expect(y).toBeGreaterThanOrEqual(track.top - 0.1);
        expect(y).toBeLessThanOrEqual(track.bottom + 0.1);
      }
    }
  });

  // independent: the study's own list of the peaks of the half-cycles, which it finds exactly
  test("have the envelope that the study knows", () => {
    const current = tracksOf(waves, "envelope").find(({ id }) => id === "primaryCurrent");
    const drawn = Math.max(...Array.from(current?.values ?? []));
    const exact = Math.max(...burst.envelope.map(([, peak]) => Math.abs(peak)));
    // 28 samples a cycle miss a peak by at most 1 − cos(π/28) = 0.63 %
    expect(drawn).toBeGreaterThan(exact * 0.9936);
    expect(drawn).toBeLessThanOrEqual(exact * (1 + 1e-9));
  });

  test("are marked in the order of time, within the burst", () => {
    const times = marksOf(burst).map(({ time }) => time);
    expect(times.length).toBeGreaterThan(1);
    expect([...times].sort((a, b) => a - b)).toEqual(times);
    expect(Math.max(...times)).toBeLessThanOrEqual(end);
  });

  // law: a half-cycle begins and ends where the current is nothing and is half a period of the burst's frequency long
  test("have half-cycles from zero to zero", () => {
    const at = 0.6 * (burst.figures.get("burst.driveTime")?.value ?? 0);
    const { from, to } = halfCycleAt(waves, at);
    const peak = burst.figures.get("burst.peakPrimaryCurrent")?.value ?? 0;
    expect(Math.abs(sampleAt(waves.time, waves.primaryCurrent, from)) / peak).toBeLessThan(1e-6);
    expect(Math.abs(sampleAt(waves.time, waves.primaryCurrent, to)) / peak).toBeLessThan(1e-6);
    const half = 1 / (2 * (burst.figures.get("burst.frequency")?.value ?? 1));
    expect((to - from) / half).toBeGreaterThan(0.85);
    expect((to - from) / half).toBeLessThan(1.15);
  });

  test("are kept in view", () => {
    expect(spanWithin({ from: -3, to: 2 }, 10, 1)).toEqual({ from: 0, to: 5 });
    expect(spanWithin({ from: 9.9, to: 10 }, 10, 1)).toEqual({ from: 9, to: 10 });
    expect(spanWithin({ from: -5, to: 50 }, 10, 1)).toEqual({ from: 0, to: 10 });
  });
});

describe("the ledger over time", () => {
  // law: the parts are the whole, at every time
  test("adds up to what the bus has given", () => {
    for (let n = 1; n <= 40; n++) {
      const { given, parts, drawn, returned } = energyAt(waves, (end * n) / 40);
      expect(given).toBeCloseTo(drawn - returned, 12);
      expect(parts.reduce((sum, { energy }) => sum + energy, 0)).toBeCloseTo(given, 9);
    }
  });

  // independent: the exact ledger of the simulation, as figures
  test("ends where the figures end", () => {
    const { parts, drawn } = energyAt(waves, end);
    expect(drawn).toBeCloseTo(burst.figures.get("burst.energyDrawn")?.value ?? 0, 6);
    for (const part of ["streamer", "secondary", "switches"] as const) {
      const exact = burst.figures.get(`burst.energy.${part}`)?.value ?? 0;
      expect(parts.find((one) => one.part === part)?.energy).toBeCloseTo(exact, 6);
    }
  });

  test("is stacked without gaps", () => {
    const x = line(0, end, 0, 500);
    const stack = energyStack({ waves, span: { from: 0, to: end }, x, y: line(0, 1, 100, 0) });
    for (const [n, { path }] of stack.entries()) {
      const points = pointsOf(path);
      const half = points.length / 2;
      const below = stack[n - 1] && pointsOf(stack[n - 1]?.path ?? "").slice(0, half);
      // law: the lower edge of a part is the upper edge of the one below it
      if (below) expect(points.slice(half).reverse()).toEqual(below);
    }
  });
});

describe("in words and files", () => {
  test("the summary tells times, peaks and marks", () => {
    const says = waveformSummary(burst, marksOf(burst), { from: 0, to: end });
    expect(says).toMatch(
      /^Waveforms from 0 s to .* half-cycles driven; primary current peaks at .* A; the top reaches .* kV; .* at /,
    );
  });

  test("a cursor and the ledger are one sentence each", () => {
    expect(cursorText(tracksOf(waves, "waves"), end / 3)).toMatch(
      /µs: primary current .* A, bridge voltage .* gates o(n|ff)$/,
    );
    expect(energyText(waves, end)).toMatch(/the bus has given .*J .*: streamer .* %; .* still stored .* %\.$/);
  });

  test("the table has every sample in view, in SI", () => {
    const rows = waveformCsv(waves, { from: end / 4, to: end / 2 })
      .trimEnd()
      .split("\n");
    const inView = waves.time.filter((time) => time >= end / 4 && time <= end / 2);
    expect(rows).toHaveLength(inView.length + 1);
    expect(rows[0]).toMatch(/^time_s,primary_current_A,/);
    const first = rows[1]?.split(",").map(Number) ?? [];
    expect(first[0]).toBeCloseTo(inView[0] ?? 0, 12);
    expect(first).toHaveLength(rows[0]?.split(",").length ?? 0);
    expect(first.every(Number.isFinite)).toBe(true);
  });

  test("the picture stands alone and escapes the coil's name", () => {
    const svg = waveformSvg({
      study: burst,
      name: "A<B & C",
      span: { from: 0, to: end },
      view: "waves",
      fitted: false,
    });
    expect(svg).toContain("A&lt;B &amp; C: on-time 110 µs");
    expect(svg).not.toMatch(/NaN|undefined|href|url\(/);
    expect(svg.match(/stroke-width="1.3"/g)).toHaveLength(6);
  });

  test("an axis has one unit", () => {
    expect(axisNumbers([0, 500, 1000], "V", 1200)).toEqual({ numbers: ["0", "0.5", "1"], unit: "kV" });
    expect(axisNumbers([-100, 0, 100], "A", 160)).toEqual({ numbers: ["−100", "0", "100"], unit: "A" });
  });
});
