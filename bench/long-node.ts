/** A long record read and analysed in Node; beside it a CSV reader that does nothing but parse the same file by the piece. */
import { createReadStream, statSync } from "node:fs";
import { open } from "node:fs/promises";
import Papa from "papaparse";
import { readCaptureInPieces } from "../src/readers/capture.ts";
import { timeRecord } from "../src/workbench/match-capture.ts";
import type { LongRun } from "./long-run.ts";

export type Part = "ours" | "theirs";

/** In a process that has done nothing else, so that its resident memory is its own. */
export async function runPart(part: Part, path: string): Promise<LongRun> {
  const began = performance.now();
  const done = await (part === "ours" ? ours(path) : theirs(path));
  const { user, system } = process.cpuUsage();
  return {
    ...done,
    clock: (performance.now() - began) / 1000,
    processor: (user + system) / 1e6,
    resident: process.resourceUsage().maxRSS / 1024,
  };
}

async function* piecesOf(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path);
  const buffer = new Uint8Array(1 << 20);
  for (;;) {
    const { bytesRead } = await file.read(buffer);
    if (bytesRead === 0) break;
    yield buffer.subarray(0, bytesRead);
  }
  await file.close();
}

async function ours(path: string): Promise<Pick<LongRun, "rows" | "says">> {
  const began = performance.now();
  const { record } = await readCaptureInPieces(piecesOf(path), { bytesTotal: statSync(path).size });
  if (record === undefined) throw new Error("the record was not read");
  const read = (performance.now() - began) / 1000;
  const { reading } = timeRecord(record);
  const analysed = (performance.now() - began) / 1000 - read;
  const carrier = reading.carrier?.is.value ?? Number.NaN;
  return {
    rows: record.length,
    says:
      `reading ${read.toFixed(2)} s, analysis ${analysed.toFixed(2)} s; ` +
      `${reading.bursts.length} bursts, carrier ${(carrier / 1000).toFixed(2)} kHz`,
  };
}

function theirs(path: string): Promise<Pick<LongRun, "rows" | "says">> {
  return new Promise((resolve, reject) => {
    let count = 0;
    Papa.parse(createReadStream(path), {
      dynamicTyping: true,
      chunk: ({ data }: { data: readonly unknown[] }) => {
        count += data.length;
      },
      complete: () => resolve({ rows: count, says: "nothing kept" }),
      error: reject,
    });
  });
}
