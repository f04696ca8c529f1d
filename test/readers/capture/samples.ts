/** A known signal, and the files that instruments of our invention make of it. */
import { expect } from "vitest";
import { type CaptureReading, type CaptureSettings, readCapture } from "../../../src/readers/capture.ts";

export const interval = 4e-8;
export const rows = 240;

/** Two volts at most, in steps of 1 mV. */
export const wave = (row: number): number => Math.round(2000 * Math.sin(row / 7) * Math.exp(-row / 150)) / 1000;
export const other = (row: number): number => Math.round(500 * Math.cos(row / 11)) / 1000;

export const textOf = (lines: readonly string[], newline = "\n"): string => `${lines.join(newline)}${newline}`;
/** A line for each row. */
export const each = (line: (row: number) => string, count = rows): readonly string[] =>
  Array.from({ length: count }, (_, row) => line(row));

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
export const read = (text: string, settings: CaptureSettings = {}): CaptureReading =>
  readCapture(bytesOf(text), settings);

export const rulesOf = ({ findings }: CaptureReading): readonly string[] => findings.map(({ rule }) => rule);

/** The reading has a record of the signal, and says nothing but what is named. */
export function expectWave(
  reading: CaptureReading,
  {
    channels = [wave],
    step = interval,
    start = 0,
    length = rows,
    rules = [],
    within = 1e-6,
  }: {
    channels?: readonly ((row: number) => number)[];
    step?: number;
    start?: number;
    length?: number;
    rules?: readonly string[];
    within?: number;
  } = {},
): void {
  expect(reading.findings.map(({ rule, what }) => `${rule}: ${what}`)).toHaveLength(rules.length);
  expect(rulesOf(reading)).toEqual(rules);
  const { record } = reading;
  expect(record?.length).toBe(length);
  expect(Math.abs((record?.interval ?? 0) / step - 1)).toBeLessThan(1e-6);
  expect(Math.abs((record?.start ?? 0) - start)).toBeLessThan(1e-3 * step);
  expect(record?.channels).toHaveLength(channels.length);
  for (const [n, signal] of channels.entries()) {
    const samples = record?.channels[n]?.samples ?? [];
    const worst = Array.from(samples).reduce(
      (most, value, row) => Math.max(most, Math.abs(value - signal(row)) || (Number.isNaN(value) ? 1 : 0)),
      0,
    );
    expect(worst).toBeLessThan(within);
  }
}
