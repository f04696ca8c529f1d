/** From columns to a record: even times, halves that stand side by side, channels that stand one below the other. */
import type { Finding } from "../../catalogue/finding.ts";
import type { BenchRecord, Channel } from "../../description/record.ts";
import { formatQuantity } from "../../units/format.ts";
import { blocksOf, namesOfBlock } from "./blocks.ts";
import type { Body } from "./body.ts";
import type { ColumnDialect, Dialect } from "./dialect.ts";
import { copyEach, GrowingSamples, GrowingTimes, type Times } from "./growing.ts";
import { backwards, fallThroughout, joinedTimes, runsOn } from "./halves.ts";
import { counted, trouble } from "./problems.ts";
import { checkAxis, type EvenAxis, onAxis } from "./time-axis.ts";

export interface Assembled {
  readonly record?: BenchRecord;
  readonly findings: readonly Finding[];
  /** The text between rows was the header of further channels. */
  readonly textExplained: boolean;
}

/** Values of a channel as they were written, before they are placed on an even axis. */
interface Written {
  readonly column: ColumnDialect;
  readonly name: string;
  readonly values: Float32Array;
}

export function recordOf(body: Body, name: string): Assembled {
  const findings: Finding[] = [];
  const asWritten = joined(body, findings);
  const falls = asWritten.times !== undefined && fallThroughout(asWritten.times);
  const { times, channels } = falls ? turnedRound(asWritten, body, findings) : asWritten;
  const stacked = stackedBlocks(body, { times, channels });
  if (stacked !== undefined) findings.push(stacked.finding);
  const written = stacked?.channels ?? channels;
  const textExplained = stacked !== undefined;
  const axis =
    times === undefined
      ? announcedAxis(body.dialect, stacked?.length ?? body.rows.rows, findings)
      : writtenAxis(body, { times: stacked?.times ?? times, falls }, findings);
  if (axis === undefined) return { findings, textExplained };
  const even = times === undefined ? undefined : (stacked?.times ?? times);
  return {
    findings,
    textExplained,
    record: {
      name,
      start: axis.start,
      interval: axis.interval,
      length: axis.length,
      channels: written.map(
        ({ column: { role, unit, transducer }, name: channelName, values }): Channel => ({
          name: channelName,
          role,
          unit,
          samples: even === undefined ? values : onAxis(values, even, axis),
          ...(transducer === undefined ? {} : { transducer }),
        }),
      ),
    },
  };
}

interface Columns {
  readonly times: Times | undefined;
  readonly channels: readonly Written[];
}

/** The last sample first: the rows are turned round. */
function turnedRound({ times, channels }: Columns, { rows }: Body, findings: Finding[]): Columns {
  if (times === undefined) return { times, channels };
  findings.push(
    trouble({
      rule: "capture-time-falls",
      severity: "look",
      line: rows.lineOf(0),
      what: "the time falls from row to row: the last row is taken as the first sample",
      expected: "times that rise from row to row",
    }),
  );
  return { times: backwards(times), channels: channels.map((one) => ({ ...one, values: one.values.toReversed() })) };
}

/** Columns that another one continues are joined where the times do run on; else what stands beside is left out, and that is said. */
function joined({ dialect, columns }: Body, findings: Finding[]): Columns {
  const timesAt = (index: number) => (columns[index] instanceof GrowingTimes ? columns[index] : undefined);
  const first = dialect.columns.findIndex(({ use }) => use === "time");
  const main = timesAt(first);
  const further = dialect.columns.flatMap(({ continues }, index) =>
    continues === first && first >= 0 ? [timesAt(index)].filter((times) => times !== undefined) : [],
  );
  const joins = main !== undefined && further.length > 0 && runsOn([main, ...further]);
  if (further.length > 0 && !joins)
    findings.push(
      trouble({
        rule: "capture-second-time",
        severity: "look",
        line: dialect.headerLines + 1,
        what: "a second time column neither repeats the first nor goes on from its end; it and the columns beside it are not used",
        expected: "all channels sampled at the same times",
        remedies: ["say which column is the time, and read the others once more"],
      }),
    );
  const channels = dialect.columns.flatMap((column, index): Written[] => {
    if (column.use !== "channel") return [];
    const parts = dialect.columns.flatMap((other, at) =>
      at === index || (joins && other.continues === index) ? [samplesAt(columns[at])] : [],
    );
    return [{ column, name: column.name, values: parts.length === 1 && parts[0] ? parts[0] : end(parts) }];
  });
  return { times: main === undefined ? undefined : joins ? joinedTimes([main, ...further]) : main, channels };
}

function samplesAt(column: GrowingTimes | GrowingSamples | undefined): Float32Array {
  return column instanceof GrowingSamples ? column.take() : new Float32Array(0);
}

/** One behind the other. */
function end(parts: readonly Float32Array[]): Float32Array {
  const whole = new Float32Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function stackedBlocks(
  { dialect, rows }: Body,
  { times, channels }: { times: Times | undefined; channels: readonly Written[] },
) {
  const blocks = blocksOf({ times, breaks: rows.breaks, rows: rows.rows });
  if (blocks === undefined) return undefined;
  const { length, starts } = blocks;
  const named = starts.map((start, block) =>
    block === 0 ? undefined : namesOfBlock(rows.breaks.find(({ row }) => row === start)?.lines ?? [], dialect),
  );
  return {
    length,
    times: times === undefined ? undefined : firstOf(times, length),
    channels: starts.flatMap((start, block) =>
      channels.map(({ column, name, values }, n): Written => {
        const own = named[block]?.[dialect.columns.indexOf(column)];
        const scale = own?.factor === undefined ? 1 : own.factor / column.factor;
        const part = values.subarray(start, start + length);
        return {
          column: { ...column, unit: own?.unit ?? column.unit },
          name: block === 0 ? name : uniqueName(own?.name, { name, number: block * channels.length + n + 1 }),
          values: scale === 1 ? part : part.map((value) => value * scale),
        };
      }),
    ),
    finding: trouble({
      rule: "capture-channels-stacked",
      severity: "look",
      line: rows.lineOf(starts[1] ?? 0),
      what: `${counted(starts.length, "block")} of ${counted(length, "row")} stand one below the other, the second from here; each is taken as ${channels.length === 1 ? "a channel" : "channels"} of its own`,
      expected: "all channels side by side",
    }),
  };
}

function firstOf(times: Times, length: number): Times {
  const part = { length, at: (row: number) => times.at(row) };
  return { ...part, copy: (into, from) => copyEach(part, into, from) };
}

const uniqueName = (own: string | undefined, { name, number }: { name: string; number: number }) =>
  own === undefined || own === "" || own === name ? `channel ${number}` : own;

function announcedAxis(dialect: Dialect, rows: number, findings: Finding[]): EvenAxis | undefined {
  const interval = dialect.interval ?? Number.NaN;
  const problem = axisProblem({ interval, rows });
  if (problem === undefined) return { start: dialect.start, interval, length: rows, rows: "as they stand" };
  findings.push(problem);
  return undefined;
}

function writtenAxis(
  { dialect, rows }: Body,
  { times, falls }: { times: Times; falls: boolean },
  findings: Finding[],
): EvenAxis | undefined {
  const { axis, findings: said } = checkAxis(times, (row) => rows.lineOf(falls ? times.length - 1 - row : row));
  findings.push(...said);
  const announced = dialect.intervalAnnounced;
  if (axis !== undefined && announced !== undefined && Math.abs(announced - axis.interval) > 1e-3 * axis.interval)
    findings.push(
      trouble({
        rule: "capture-interval-disagrees",
        severity: "look",
        what: `the header gives a sample interval of ${formatQuantity(announced, "s")}, the time column one of ${formatQuantity(axis.interval, "s")}; the column is taken`,
        expected: "one sample interval",
      }),
    );
  return axis;
}

function axisProblem({ interval, rows }: { interval: number; rows: number }): Finding | undefined {
  if (!(interval > 0 && interval < Number.POSITIVE_INFINITY))
    return trouble({
      rule: "capture-interval",
      what: `a sample interval of ${interval} s`,
      expected: "a sample interval above 0",
    });
  return rows < 2
    ? trouble({
        rule: "capture-too-few-rows",
        what: `the record has ${counted(rows, "row")}`,
        expected: "thousands of rows; at least two",
      })
    : undefined;
}
