/** Records on the command line: progress, and Ctrl+C. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { dialectSettings } from "../../src/cli/match-options.ts";
import { nodeIo } from "../../src/cli/node-io.ts";
import { run } from "../../src/cli/run.ts";
import { memoryIo } from "./memory-io.ts";

const coil = await readFile(new URL("../../examples/belfry.yaml", import.meta.url), "utf8");
const record = `t (s),CH1 (V)\n${Array.from({ length: 500 }, (_, n) => `${(n * 1e-6).toFixed(6)},${Math.sin(n / 2).toFixed(4)}`).join("\n")}\n`;
const files = { "coil.yaml": coil, "record.csv": record };

// law: what is stopped changes nothing and says so
describe("a record on the command line", () => {
  it("is given up at Ctrl+C with a code of its own, and the files are what they were", async () => {
    const io = memoryIo(files, { interrupted: true });
    expect(await run(["match", "coil.yaml", "record.csv", "--adopt"], io)).toBe(130);
    expect(io.printed.err).toMatch(/record\.csv: reading was stopped after 0 .*nothing of it is kept/);
    expect(io.printed.out).toBe("");
    expect(Object.fromEntries(io.files)).toEqual(files);
  });

  it("is given up at Ctrl+C while bursts are looked for in it, too", async () => {
    const io = memoryIo(files, { interrupted: /looking for bursts, CH1/ });
    expect(await run(["match", "coil.yaml", "record.csv", "--adopt"], io)).toBe(130);
    expect(io.progressed.filter((text) => text.includes("bursts"))).toEqual(["record.csv: looking for bursts, CH1"]);
    expect(io.printed.err).toMatch(/record\.csv: it was read; looking for bursts in it was stopped/);
    expect(io.printed.out).toBe("");
    expect(Object.fromEntries(io.files)).toEqual(files);
  });

  it("shows how far it is, and clears the line", async () => {
    const io = memoryIo(files);
    await run(["match", "coil.yaml", "record.csv", "--json"], io);
    expect(io.progressed).toContain("record.csv: 100 % read");
    expect(io.progressed.at(-1)).toBe("");
    expect(io.printed.err).toBe("");
  });

  it("hears Ctrl+C only while it reads", async () => {
    const before = process.listenerCount("SIGINT");
    await nodeIo().interruptible(async (signal) => {
      expect(process.listenerCount("SIGINT")).toBe(before + 1);
      process.emit("SIGINT");
      expect(signal.aborted).toBe(true);
    });
    expect(process.listenerCount("SIGINT")).toBe(before);
  });

  it("is said how it was read, with the channels by the numbers that options use", async () => {
    const io = memoryIo({ ...files, "record.csv": record.replaceAll(",", ";") });
    await run(["match", "coil.yaml", "record.csv", "--role", "1=pickupLoop"], io);
    expect(io.printed.out.replace(/\s+/g, " ")).toMatch(
      /read as: semicolons between cells, decimal point, 1 line before the rows, time in column 1 \(s\); channel 1 CH1 in V \(pickupLoop\); 500 samples, one each 1\.000.µs/,
    );
  });

  it("has its state beside it, whatever else could not be read", async () => {
    const io = memoryIo({ ...files, "words.csv": "nothing\nbut words\n" });
    await run(["match", "coil.yaml", "words.csv", "record.csv", "--json", "--state", "near", "--state", "cold"], io);
    const { captures } = JSON.parse(io.printed.out) as { captures: readonly { name: string; state?: string }[] };
    expect(captures.map(({ state }) => state)).toEqual([undefined, "cold"]);
  });

  it("that is a sweep tells its peaks, and what stands in its cells that is no number", async () => {
    const line = (n: number) => `${300 + n / 2};${n === 20 ? "x" : (1 / Math.hypot(1, (n - 60) / 3)).toFixed(4)}`;
    const io = memoryIo({
      ...files,
      "sweep.csv": `f (kHz);U (V)\n${Array.from({ length: 121 }, (_, n) => line(n)).join("\n")}\n`,
    });
    await run(["match", "coil.yaml", "sweep.csv"], io);
    expect(io.printed.out).toMatch(/a sweep of 121 points: a peak at 330\.0\d.kHz/);
    expect(io.printed.out).toMatch(/1 cell is not a number, the first is `x`/);
  });

  it("takes what is said of columns, counted from 1", () => {
    expect(dialectSettings({ column: ["1=use:time,unit:us", "3=scale:-10,name:loop", "2=codes:none"] })).toEqual({
      columns: { 0: { use: "time", unit: "us" }, 1: { codes: "none" }, 2: { scale: -10, name: "loop" } },
    });
    for (const wrong of [
      "2",
      "0=unit:mV",
      "x=unit:mV",
      "2=unit",
      "2=use:gate",
      "2=scale:abc",
      "2=codes:all",
      "2=colour:red",
    ])
      expect(() => dialectSettings({ column: [wrong] })).toThrow(/^--column .*expected/);
  });

  it("passes what is said of columns on to the reader", async () => {
    const io = memoryIo({ ...files, "record.csv": record.replace("t (s),CH1 (V)", "a,b") });
    await run(
      ["match", "coil.yaml", "record.csv", "--json", "--column", "1=use:time,unit:ms", "--column", "2=unit:kA"],
      io,
    );
    const { dialect } = JSON.parse(io.printed.out) as {
      dialect: { columns: readonly { unit: string; factor: number }[] };
    };
    expect(dialect.columns).toMatchObject([
      { use: "time", factor: 1e-3 },
      { unit: "A", factor: 1e3 },
    ]);
  });

  it("says that a folder is no file", async () => {
    await expect(nodeIo().pieces(".")).rejects.toThrow("is a folder; expected a file");
  });
});
