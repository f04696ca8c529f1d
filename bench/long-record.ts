/**
 * `npm run bench -- long`: a record of ten million rows, made in the temporary folder, read and analysed; beside it a well-kept CSV reader
 * that does nothing but parse the same file by the piece. Each runs in a process of its own, so that its resident memory is its own.
 */
import { spawnSync } from "node:child_process";
import { closeSync, createReadStream, mkdtempSync, openSync, rmSync, statSync, writeSync } from "node:fs";
import { open } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { readCaptureInPieces } from "../src/readers/capture.ts";
import { timeRecord } from "../src/workbench/match-capture.ts";

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

/** A second of bursts at 200 Hz, sampled at 10 MHz by a converter of 8 bits. */
function write(path: string, columns: number): void {
  const levels = Array.from({ length: 256 }, (_, code) => ((code - 128) * 0.04).toFixed(2));
  const file = openSync(path, "w");
  const names = Array.from({ length: columns - 1 }, (_, n) => `CH${n + 1}`);
  writeSync(file, `Time,${names.join(",")}\n(s)${",(V)".repeat(columns - 1)}\n`);
  // The noise of the converter, without chance.
  let dither = 1;
  for (let from = 0; from < rows; from += 100_000) {
    const lines: string[] = [];
    for (let row = from; row < from + 100_000; row++) {
      const since = (row % 50_000) * 1e-7 - 5e-4;
      const rise = 1 - Math.exp(-Math.min(since, 150e-6) / 60e-6);
      const swing = since < 0 ? 0 : rise * Math.exp(-Math.max(0, since - 150e-6) / 120e-6) * Math.sin(since * 7.54e5);
      let line = (row * 1e-7).toExponential(7);
      for (let channel = 1; channel < columns; channel++) {
        dither = (dither * 48_271) % 2_147_483_647;
        line += `,${levels[Math.floor(128 + (110 * swing) / channel + dither / 2_147_483_647)]}`;
      }
      lines.push(line);
    }
    writeSync(file, `${lines.join("\n")}\n`);
  }
  closeSync(file);
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
      write(file, columns);
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
