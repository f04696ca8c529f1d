/** The same burst written in several dialects gives the same figures, within the limits that hold for the record itself. */
import { beforeAll, describe, expect, it } from "vitest";
import type { BenchRecord } from "../../src/description/record.ts";
import { readCapture } from "../../src/readers/capture.ts";
import { captureFigures, timeRecord } from "../../src/workbench/match-capture.ts";
import { benchCoil, polesOfBench, runBench, seenOnBench } from "./bench-netlists.ts";

const coil = benchCoil({
  frequency: 200e3,
  detuning: 0.96,
  coupling: 0.12,
  qualities: [60, 130],
  drive: 0.918,
  cycles: 20,
  period: 300,
  bursts: 2,
});
const comma = (text: string) => text.replace(".", ",");

/** Rows of time and of the one channel. */
const dialects: Record<
  string,
  (record: BenchRecord, rows: readonly (readonly [time: number, value: number])[]) => string
> = {
  "comma and point": (_, rows) =>
    ["Time (s),current (V)", ...rows.map(([time, value]) => `${time.toExponential(9)},${value.toFixed(5)}`)].join("\n"),
  "a row of units, microseconds": (_, rows) =>
    [
      "Time,current",
      "(us),(mV)",
      "",
      ...rows.map(([time, value]) => `${(time * 1e6).toFixed(6)},${(1e3 * value).toFixed(2)}`),
    ].join("\r\n"),
  "semicolon and decimal comma": (_, rows) =>
    [
      "\uFEFFZeit;current",
      "s;V",
      ...rows.map(([time, value]) => `${comma(time.toExponential(8))};${comma(value.toFixed(5))}`),
    ].join("\r\n"),
  "no column of time": ({ interval, start }, rows) =>
    [
      `Sample Interval,${interval}`,
      `Trigger Time,${start}`,
      "",
      "current",
      ...rows.map(([, value]) => value.toFixed(5)),
    ].join("\n"),
  "tabs, with blanks": (_, rows) =>
    [
      "t/ms\tcurrent/V",
      ...rows.map(([time, value], n) => `${(time * 1e3).toFixed(8)}\t${n % 97 === 3 ? "" : value.toFixed(4)}`),
    ].join("\n"),
};

describe("a record of the primary's current", () => {
  let record: BenchRecord;
  beforeAll(async () => {
    const run = await runBench(coil, 1 / (coil.drive * 18.3));
    record = seenOnBench(run, { channels: ["primaryCurrent"], noise: 0.004, fill: 0.85, trigger: 7, seed: 9 });
  }, 60_000);

  it.each(Object.entries(dialects))("is read from %s", (_name, write) => {
    // independent: the netlist's own values
    const samples = record.channels[0]!.samples;
    const rows = Array.from(samples, (value, n) => [record.start + n * record.interval, value] as const);
    const read = readCapture(new TextEncoder().encode(write(record, rows))).record!;
    const [channel] = read.channels;
    const figures = captureFigures(
      timeRecord({ ...read, channels: [{ ...channel!, role: "primaryCurrent" }] }).reading,
    );
    const value = (id: string) => figures.find((figure) => figure.id === id)!.value;
    const [lower, upper] = polesOfBench(coil);
    expect(Math.abs(value("capture.carrier") / coil.drive - 1)).toBeLessThan(5e-4);
    expect(Math.abs(value("capture.repetitionRate") * coil.period - 1)).toBeLessThan(1e-4);
    expect(Math.abs(value("capture.onTime") - coil.onTime) * 2 * coil.drive).toBeLessThan(1);
    expect(Math.abs(value("capture.poles.lower") / lower!.frequency - 1)).toBeLessThan(2e-3);
    expect(Math.abs(value("capture.poles.upper") / upper!.frequency - 1)).toBeLessThan(2e-3);
  });
});
