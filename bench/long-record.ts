/**
 * `npm run bench long`: records of ten million rows, made in the temporary folder, read and analysed in Node and on the bench of the built app;
 * beside each a well-kept CSV reader that does nothing but parse the same file by the piece. Each runs in a process of its own.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statSync } from "node:fs";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { type LongRecord, writeLongRecord } from "./long-csv.ts";
import { type Part, runPart } from "./long-node.ts";
import type { LongRun } from "./long-run.ts";

const rows = Number(process.env["COILWRIGHT_LONG_ROWS"] ?? 10_000_000);
/** What is asked: seconds by the clock of a machine that is otherwise idle, memory, and no more of the processor than parsing alone takes the reference. */
const asked = { clock: 4, resident: 600, ratio: 1 };

const records: readonly Omit<LongRecord, "rows">[] = [
  { columns: 2, drive: "square" },
  { columns: 4, drive: "square" },
  { columns: 4, drive: "odd" },
];
const drives = { square: "driven by a square", odd: "driven by nothing that can be explained" };

function inOwnProcess(part: Part, path: string): LongRun {
  const { stdout, stderr, status } = spawnSync(process.execPath, [process.argv[1] ?? "", "--part", part, path], {
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`the part ${part} failed: ${stderr}`);
  return JSON.parse(stdout) as LongRun;
}

const load = () => loadavg()[0]!.toFixed(1);

function line(who: string, { clock, processor, resident, rows: count, says }: LongRun): string {
  const memory = resident === undefined ? "memory not told" : `${resident.toFixed(0)} MB at most`;
  return `${who.padStart(20)}  ${clock.toFixed(2)} s by the clock, ${processor.toFixed(2)} s of the processor, ${memory}; ${count === undefined ? "" : `${count} rows; `}${says}`;
}

/** A run that waited for the processor for a larger part of its time says nothing by the clock. */
const idle = 1.25;
const isBusy = ({ clock, processor }: LongRun): boolean => clock > idle * processor;

/** What is more than asked, in words. On a busy machine the processor's time stands for the clock's. */
function overOf(ours: LongRun, theirs: LongRun): readonly string[] {
  const ratio = ours.processor / theirs.processor;
  const [time, by] = isBusy(ours) ? [ours.processor, "of the processor"] : [ours.clock, "by the clock"];
  return [
    ...(time > asked.clock ? [`${time.toFixed(2)} s ${by}`] : []),
    ...((ours.resident ?? 0) > asked.resident ? [`${ours.resident!.toFixed(0)} MB`] : []),
    ...(ratio > asked.ratio ? [`${ratio.toFixed(2)} of the CSV reader's processor time`] : []),
  ];
}

function tell(where: string, ours: LongRun, theirs: LongRun): number {
  const over = overOf(ours, theirs);
  console.log(line(where, ours));
  console.log(line("CSV reader alone", theirs));
  console.log(
    `${"ratio".padStart(20)}  ${(ours.processor / theirs.processor).toFixed(2)} of the processor's time, ` +
      `${(ours.clock / theirs.clock).toFixed(2)} by the clock; load ${load()} on ${availableParallelism()} cores; ` +
      (over.length === 0 ? "as asked" : `more than asked: ${over.join(", ")}`) +
      (isBusy(ours) ? "; it waited for the processor: not judged by the clock" : ""),
  );
  return over.length;
}

async function race(record: Omit<LongRecord, "rows">, file: string): Promise<number> {
  writeLongRecord(file, { rows, ...record });
  const megabytes = (statSync(file).size / 1e6).toFixed(0);
  console.log(`${rows / 1e6} million rows, ${record.columns} columns, ${megabytes} MB, ${drives[record.drive]}`);
  const inNode = tell("in Node", inOwnProcess("ours", file), inOwnProcess("theirs", file));
  // Only here: what drives a browser has no place in the memory of the parts.
  const { inBrowser, whyNoBrowser } = await import("./long-browser.ts");
  const lacking = whyNoBrowser();
  if (lacking !== undefined) {
    console.log(`${"in the browser".padStart(20)}  not measured: ${lacking}`);
    return inNode + 1;
  }
  return inNode + tell("in the browser", await inBrowser("ours", file), await inBrowser("theirs", file));
}

const [flag, part, path = ""] = process.argv.slice(2);
if (flag === "--part") console.log(JSON.stringify(await runPart(part as Part, path)));
else {
  const folder = mkdtempSync(join(tmpdir(), "long-record-"));
  let over = 0;
  try {
    for (const record of records) {
      const file = join(folder, "long.csv");
      over += await race(record, file);
      rmSync(file);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  console.log(
    `asked: at most ${asked.clock} s by the clock, ${asked.resident} MB, ${asked.ratio} of the CSV reader's processor time: ` +
      (over === 0 ? "kept" : `${over} over`),
  );
  process.exitCode = over > 0 ? 1 : 0;
}
