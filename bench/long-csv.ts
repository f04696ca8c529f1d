/** A long record of an oscilloscope, made up: a train of bursts at 200 Hz, sampled at 10 MHz by a converter of 8 bits. */
import { closeSync, openSync, writeSync } from "node:fs";

/** Rows from one burst to the next: no whole number, so that no two bursts meet the samples alike. */
const period = 50_000.37;
const interval = 1e-7;
/** Places of the burst's table to a row, and rows that are written at once. */
const finer = 16;
const rowsAtOnce = 50_000;
/** [V], of the converter. */
const step = 0.04;

const frequency = 120e3;
/** What such a record holds, by its making [Hz]. */
export const madeOf = { rate: 1 / (period * interval), carrier: frequency };

export interface LongRecord {
  readonly rows: number;
  /** Time and as many channels less one, each half as high as the one before. */
  readonly columns: number;
  /** `square`: a resonator's answer to a square drive of 150 µs. `odd`: a burst that no square drive explains, over which the search is longest. */
  readonly drive: "square" | "odd";
}

export function writeLongRecord(path: string, { rows, columns, drive }: LongRecord): void {
  const levels = Array.from({ length: 256 }, (_, code) => ((code - 128) * step).toFixed(2));
  const burst = drive === "square" ? squareDriven() : oddlyDriven();
  const file = openSync(path, "w");
  const names = Array.from({ length: columns - 1 }, (_, n) => `CH${n + 1}`);
  writeSync(file, `Time,${names.join(",")}\n(s)${",(V)".repeat(columns - 1)}\n`);
  // The noise of the converter, without chance.
  let dither = 1;
  for (let from = 0; from < rows; from += rowsAtOnce) {
    const lines: string[] = [];
    for (let row = from; row < Math.min(rows, from + rowsAtOnce); row++) {
      const swing = burst[Math.floor(finer * (row % period))]!;
      let line = (row * interval).toExponential(7);
      for (let channel = 0; channel < columns - 1; channel++) {
        dither = (dither * 48_271) % 2_147_483_647;
        line += `,${levels[Math.floor(128 + (110 * swing) / 2 ** channel + dither / 2_147_483_647)]}`;
      }
      lines.push(line);
    }
    writeSync(file, `${lines.join("\n")}\n`);
  }
  closeSync(file);
}

/** By place, from one burst to the next. */
const table = (at: (time: number) => number): Float64Array =>
  Float64Array.from({ length: Math.ceil(finer * period) }, (_, place) => at((place / finer) * interval));

const start = 5e-4;
const onTime = 150e-6;
const decayTime = 120e-6;

/** One resonator at its own frequency, struck at every half-cycle of the drive: Σ ±2·exp(−t/τ)·sin(ωt); the greatest is 1. */
function squareDriven(): Float64Array {
  const angular = 2 * Math.PI * frequency;
  const half = 0.5 / frequency;
  const strikes = Math.round(onTime / half);
  const burst = table((time) => {
    let sum = 0;
    for (let n = 0; n <= strikes; n++) {
      const since = time - start - n * half;
      if (since < 0) break;
      const weight = (n === 0 || n === strikes ? 1 : 2) * (n % 2 === 0 ? 1 : -1);
      sum += weight * Math.exp(-since / decayTime) * Math.sin(angular * since);
    }
    return sum;
  });
  const greatest = burst.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return burst.map((value) => value / greatest);
}

/** A sine under an envelope that has nothing to do with it. */
function oddlyDriven(): Float64Array {
  return table((time) => {
    const since = time - start;
    const rise = 1 - Math.exp(-Math.min(since, onTime) / 60e-6);
    return since < 0
      ? 0
      : rise * Math.exp(-Math.max(0, since - onTime) / decayTime) * Math.sin(2 * Math.PI * frequency * since);
  });
}
