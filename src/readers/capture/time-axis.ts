/** From written times to an even axis: rounding is seen through, missing rows are put back empty, uneven rows are resampled or refused. */
import type { Finding } from "../../catalogue/finding.ts";
import { formatQuantity } from "../../units/format.ts";
import type { Times } from "./growing.ts";
import { counted, trouble } from "./problems.ts";

export interface EvenAxis {
  readonly start: number;
  readonly interval: number;
  /** Samples on the even axis. */
  readonly length: number;
  /** How the rows become samples. */
  readonly rows: "as they stand" | "with gaps" | "resampled";
}

export interface AxisCheck {
  readonly axis?: EvenAxis;
  readonly findings: readonly Finding[];
}

/** Steps that differ from the median by more than this part of it are not even. */
const uneven = 0.25;
/** Resampling is refused over gaps longer than this many median steps: what was between them is not known. */
const longestGap = 4;
/** A record may grow by this factor when missing rows are put back. */
const mostFilling = 4;

/**
 * Checks the written times.
 *
 * @param times   [rows], s; not finite where a row has no time
 * @param lineOf  line of the file of a row
 */
export function checkAxis(times: Times, lineOf: (row: number) => number): AxisCheck {
  const count = times.length;
  const refuse = (parts: Omit<Parameters<typeof trouble>[0], "severity">): AxisCheck => ({
    findings: [trouble(parts)],
  });
  if (count < 2) {
    return refuse({
      rule: "capture-too-few-rows",
      what: `the record has ${counted(count, "row")}`,
      expected: "thousands of rows; at least two for a sample interval",
    });
  }
  const seen = survey(times);
  if (seen.lost >= 0) {
    return refuse({
      rule: "capture-time-missing",
      line: lineOf(seen.lost),
      what: "this row has no time",
      expected: "a time in every row, or a sample interval in the header",
      remedies: ["give the sample interval: the time column is not used then"],
    });
  }
  if (seen.backwards >= 0) {
    const [before, at] = [times.at(seen.backwards - 1), times.at(seen.backwards)];
    return refuse({
      rule: "capture-time-backwards",
      line: lineOf(seen.backwards),
      what: `the time goes back from ${second(before)} to ${second(at)}`,
      expected: "times that rise from row to row; a file with several records has to be cut into them",
      remedies: ["save one record to a file", "say which column is the time"],
    });
  }
  if (!(seen.last > seen.first)) {
    return refuse({
      rule: "capture-time-stands-still",
      line: lineOf(0),
      what: `every row has the time ${second(seen.first)}`,
      expected: "times that rise from row to row, written with enough digits",
      remedies: ["give the sample interval: the time column is not used then"],
    });
  }
  const mean = (seen.last - seen.first) / (count - 1);
  const line = straightLine(times, seen.first, mean);
  const even: EvenAxis = {
    start: tidy(line.start, line.interval),
    interval: Number(line.interval.toPrecision(13)),
    length: count,
    rows: "as they stand",
  };
  if (line.worst <= uneven * mean) return { axis: even, findings: [] };
  // Times written with too few digits stand still and jump; the rows are even all the same.
  const written = writtenSteps(times);
  // Seconds since 1970 are rounded once more by double precision.
  const precision = 2 ** -51 * Math.abs(seen.last);
  if (written.rounded && line.worst <= 0.75 * written.step + 1e-9 * mean + precision)
    return { axis: even, findings: [rounded(lineOf(0), { step: written.step, interval: line.interval })] };
  return filledOrResampled(times, lineOf);
}

function survey(times: Times): { first: number; last: number; lost: number; backwards: number } {
  let lost = -1;
  let backwards = -1;
  let before = Number.NEGATIVE_INFINITY;
  for (let row = 0; row < times.length && lost < 0 && times.rising !== true; row++) {
    const at = times.at(row);
    if (!Number.isFinite(at)) lost = row;
    else if (at < before && backwards < 0) backwards = row;
    before = at;
  }
  return { first: times.at(0), last: times.at(times.length - 1), lost, backwards };
}

/** Least-squares line through the times, and the greatest distance of a time from it. */
function straightLine(times: Times, first: number, mean: number): { start: number; interval: number; worst: number } {
  const count = times.length;
  const middle = (count - 1) / 2;
  const piece = new Float64Array(Math.min(count, 1 << 14));
  let sum = 0;
  let moment = 0;
  for (let from = 0; from < count; from += piece.length) {
    times.copy(piece, from);
    const size = Math.min(piece.length, count - from);
    for (let i = 0; i < size; i++) {
      const off = piece[i]! - first - (from + i) * mean;
      sum += off;
      moment += off * (from + i - middle);
    }
  }
  const slope = moment / ((count * (count * count - 1)) / 12);
  const interval = mean + slope;
  const start = first + sum / count - slope * middle;
  let worst = 0;
  for (let from = 0; from < count; from += piece.length) {
    times.copy(piece, from);
    const size = Math.min(piece.length, count - from);
    for (let i = 0; i < size; i++) {
      const off = Math.abs(piece[i]! - start - (from + i) * interval);
      if (off > worst) worst = off;
    }
  }
  return { start, interval, worst };
}

/**
 * The least difference between two written times that differ, over the first thousand rows, and whether rounding made it:
 * rounded times stand still now and then, or step by one and by two so often that it cannot be missing rows.
 */
function writtenSteps(times: Times): { step: number; rounded: boolean } {
  const steps = Array.from({ length: Math.min(1000, times.length - 1) }, (_, row) => times.at(row + 1) - times.at(row));
  const moves = steps.filter((step) => step > 0);
  const step = moves.reduce((least, one) => Math.min(least, one), Number.POSITIVE_INFINITY);
  const double = moves.filter((one) => one > 1.5 * step).length;
  const whole = moves.every((one) => Math.abs(one / step - Math.round(one / step)) < 0.1);
  return { step, rounded: whole && (moves.length < steps.length || double > moves.length / 5) };
}

/** A start without the rounding of the line through the times. */
function tidy(start: number, interval: number): number {
  const digits = 10 ** (Math.floor(Math.log10(interval)) - 5);
  return Number((Math.round(start / digits) * digits).toPrecision(12));
}

function rounded(line: number, { step, interval }: { step: number; interval: number }): Finding {
  return trouble({
    rule: "capture-time-rounded",
    severity: "look",
    line,
    what: `the times are written in steps of ${second(step)}, the rows are ${second(interval)} apart; the rows are taken as even`,
    expected: "times written with enough digits to tell two rows apart",
  });
}

function filledOrResampled(times: Times, lineOf: (row: number) => number): AxisCheck {
  const count = times.length;
  const steps = Float64Array.from({ length: Math.min(count - 1, 100_001) }, (_, i) => {
    const row = Math.floor((i * (count - 2)) / Math.max(1, Math.min(count - 1, 100_001) - 1));
    return times.at(row + 1) - times.at(row);
  }).sort();
  const median = steps[steps.length >> 1] ?? Number.NaN;
  let missing = 0;
  let firstMissing = -1;
  let odd = 0;
  let firstOdd = -1;
  let longest = 0;
  let longestAt = 0;
  let regular = 0;
  let regularSum = 0;
  for (let row = 1; row < count; row++) {
    const step = times.at(row) - times.at(row - 1);
    const whole = Math.round(step / median);
    if (step > longest) {
      longest = step;
      longestAt = row;
    }
    if (whole < 1 || Math.abs(step - whole * median) > uneven * median) {
      odd++;
      if (firstOdd < 0) firstOdd = row;
    } else {
      regular += whole;
      regularSum += step;
      if (whole > 1) {
        missing += whole - 1;
        if (firstMissing < 0) firstMissing = row;
      }
    }
  }
  const length = Math.round((times.at(count - 1) - times.at(0)) / median) + 1;
  if (odd === 0 && missing > 0 && length <= mostFilling * count) {
    const interval = regularSum / regular;
    return {
      axis: {
        start: times.at(0),
        interval,
        length: Math.round((times.at(count - 1) - times.at(0)) / interval) + 1,
        rows: "with gaps",
      },
      findings: [
        trouble({
          rule: "capture-rows-missing",
          severity: "look",
          line: lineOf(firstMissing),
          what: `${counted(missing, "row is", "rows are")} missing, the first before this one; the gaps are kept as gaps`,
          expected: `a row every ${second(interval)}`,
        }),
      ],
    };
  }
  if (longest <= longestGap * median && odd > 0) {
    const interval = Number(median.toPrecision(9));
    return {
      axis: {
        start: times.at(0),
        interval,
        length: Math.floor((times.at(count - 1) - times.at(0)) / interval + 1e-6) + 1,
        rows: "resampled",
      },
      findings: [
        trouble({
          rule: "capture-time-uneven",
          severity: "look",
          line: lineOf(firstOdd),
          what: `${counted(odd, "step")} of the time differ from ${second(median)}, the first here; the samples are resampled to even steps of ${second(interval)}`,
          expected: "evenly sampled rows: frequencies and decays are read more surely from them",
          remedies: ["export evenly sampled rows, where the program offers it"],
        }),
      ],
    };
  }
  return {
    findings: [
      trouble({
        rule: "capture-time-uneven",
        line: lineOf(longestAt),
        what: `the time steps by ${second(longest)} here, by ${second(median)} in most rows`,
        expected: `even steps, or steps of at most ${longestGap} usual ones`,
        remedies: [
          "give the sample interval, where the times are written wrongly",
          "save the record without compression of its rows",
        ],
      }),
    ],
  };
}

function second(value: number): string {
  return formatQuantity(value, "s");
}

/**
 * Samples on the even axis from rows at their own times.
 *
 * `with gaps`: each row goes to the nearest place, places without a row are NaN. `resampled`: cubic through the four nearest rows, straight across edges.
 */
export function onAxis(samples: Float32Array, times: Times, axis: EvenAxis): Float32Array {
  if (axis.rows === "as they stand") return samples;
  const placed = new Float32Array(axis.length).fill(Number.NaN);
  if (axis.rows === "with gaps") {
    for (let row = 0; row < samples.length; row++) {
      const place = Math.round((times.at(row) - axis.start) / axis.interval);
      if (place >= 0 && place < placed.length) placed[place] = samples[row] ?? Number.NaN;
    }
    return placed;
  }
  let row = 0;
  for (let place = 0; place < placed.length; place++) {
    const t = axis.start + place * axis.interval;
    while (row < samples.length - 2 && times.at(row + 1) <= t) row++;
    placed[place] = cubicAt(samples, times, { row, t });
  }
  return placed;
}

/** Steps beside each other that differ by more than this factor stand at an edge, across which no cubic is drawn. */
const unlike = 4;

/** Lagrange's cubic through the rows about `t`; a straight line where the neighbours are too few, or their steps too unlike. */
function cubicAt(samples: Float32Array, times: Times, { row, t }: { row: number; t: number }): number {
  const from = Math.max(0, Math.min(row - 1, samples.length - 4));
  const [a, b, c, d] = [times.at(from), times.at(from + 1), times.at(from + 2), times.at(from + 3)];
  const shortest = Math.min(b - a, c - b, d - c);
  const longest = Math.max(b - a, c - b, d - c);
  if (samples.length < 4 || !(longest < unlike * shortest)) {
    const [before, after] = [times.at(row), times.at(row + 1)];
    const part = after > before ? (t - before) / (after - before) : 0;
    // A gap beside a row does not reach it.
    if (part === 0) return samples[row] ?? Number.NaN;
    if (part === 1) return samples[row + 1] ?? Number.NaN;
    return (1 - part) * (samples[row] ?? Number.NaN) + part * (samples[row + 1] ?? Number.NaN);
  }
  return (
    (samples[from]! * (t - b) * (t - c) * (t - d)) / ((a - b) * (a - c) * (a - d)) +
    (samples[from + 1]! * (t - a) * (t - c) * (t - d)) / ((b - a) * (b - c) * (b - d)) +
    (samples[from + 2]! * (t - a) * (t - b) * (t - d)) / ((c - a) * (c - b) * (c - d)) +
    (samples[from + 3]! * (t - a) * (t - b) * (t - c)) / ((d - a) * (d - b) * (d - c))
  );
}
