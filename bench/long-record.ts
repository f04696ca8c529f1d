/**
 * `npm run bench -- long`: a record of ten million rows, made in the temporary folder, read and analysed; beside it a well-kept CSV reader
 * that does nothing but parse the same file by the piece. Each runs in a process of its own, so that its resident memory is its own.
 */
import { spawnSync } from "node:child_process";
import { createReadStream, mkdtempSync, rmSync, statSync } from "node:fs";
import { open } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { readCaptureInPieces } from "../src/readers/capture.ts";
import { timeRecord } from "../src/workbench/match-capture.ts";
import { writeLongRecord } from "./long-csv.ts";

const rows = 10_000_000;
/** What the project promises of it. */
const seconds = 4;
const megabytes = 600;

interface Run {
  readonly rows: number;
  /** [s]: by the clock, and of the processor; on a busy machine the first is the longer. */
  readonly clock: number;
  readonly processor: number;
  /** The most that was resident [MB]. */
  readonly resident: number;
  readonly says: string;
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

async function ours(path: string): Promise<Pick<Run, "rows" | "says">> {
  const began = performance.now();
  const { record } = await readCaptureInPieces(piecesOf(path), { bytesTotal: statSync(path).size });
  if (record === undefined) throw new Error("the record was not read");
  const read = performance.now() - began;
  const { reading } = timeRecord(record);
  const carrier = reading.carrier?.is.value ?? Number.NaN;
  return {
    rows: record.length,
    says: `read in ${(read / 1000).toFixed(2)} s; ${reading.bursts.length} bursts, carrier ${(carrier / 1000).toFixed(2)} kHz`,
  };
}

function theirs(path: string): Promise<Pick<Run, "rows" | "says">> {
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

async function part(name: string, path: string): Promise<Run> {
  const began = performance.now();
  const done = await (name === "ours" ? ours(path) : theirs(path));
  const { user, system } = process.cpuUsage();
  return {
    ...done,
    clock: (performance.now() - began) / 1000,
    processor: (user + system) / 1e6,
    resident: process.resourceUsage().maxRSS / 1024,
  };
}

function inOwnProcess(name: string, path: string): Run {
  const { stdout, stderr, status } = spawnSync(process.execPath, [process.argv[1] ?? "", "--part", name, path], {
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`the ${name} part failed: ${stderr}`);
  return JSON.parse(stdout) as Run;
}

const [flag, name = "", path = ""] = process.argv.slice(2);
if (flag === "--part") console.log(JSON.stringify(await part(name, path)));
else {
  const folder = mkdtempSync(join(tmpdir(), "long-record-"));
  let over = 0;
  try {
    for (const columns of [2, 4]) {
      const file = join(folder, `${columns}.csv`);
      writeLongRecord(file, { rows, columns, drive: "odd" });
      console.log(`${rows / 1e6} million rows, ${columns} columns, ${(statSync(file).size / 1e6).toFixed(0)} MB`);
      const runs = { ours: inOwnProcess("ours", file), "CSV alone": inOwnProcess("theirs", file) };
      for (const [who, run] of Object.entries(runs))
        console.log(
          `${who.padStart(11)}  ${run.clock.toFixed(2)} s (processor ${run.processor.toFixed(2)} s), ` +
            `${run.resident.toFixed(0)} MB resident, ${run.rows} rows; ${run.says}`,
        );
      console.log(
        `      ratio  ${(runs.ours.processor / runs["CSV alone"].processor).toFixed(2)} of the processor's time`,
      );
      if (runs.ours.processor > seconds || runs.ours.resident > megabytes) over++;
      rmSync(file);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  console.log(`at most ${seconds} s and ${megabytes} MB: ${over} over`);
  process.exitCode = over > 0 ? 1 : 0;
}
