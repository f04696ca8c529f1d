import { describe, expect, it } from "vitest";
import { isLogEntry, type LogEntry, logNameOf, readLog, withEntry } from "../../src/readers/bench-log.ts";

const reading: LogEntry = {
  kind: "reading",
  at: "2026-11-25T16:20:00Z",
  stage: "parts",
  step: "bank",
  says: "Measure the bank.",
  unit: "F",
  value: 41e-9,
  expected: 45e-9,
  low: 44e-9,
  high: 46e-9,
};
const adopted: LogEntry = {
  kind: "adopted",
  at: "2026-11-25T16:21:00Z",
  edits: [{ path: "primary.tap", value: "6.5" }],
};

describe("the log of the bench", () => {
  it("stands beside the coil file", () => {
    expect(["lantern.yaml", "a/b.c/lantern.YML", "lantern"].map(logNameOf)).toEqual([
      "lantern.bench.jsonl",
      "a/b.c/lantern.bench.jsonl",
      "lantern.bench.jsonl",
    ]);
  });

  // law: what is written is what is read, and nothing that stood there is changed
  it("keeps every entry, in order, and all that was there before", () => {
    const one = withEntry("", reading) ?? "";
    const two = withEntry(one, adopted) ?? "";
    expect(two.startsWith(one)).toBe(true);
    expect(readLog(two)).toEqual({ entries: [reading, adopted], unread: [] });
    const touched = `${two.trimEnd()}\nmy own words\n{"kind":"match","at":"yesterday"}`;
    expect(readLog(touched)?.unread).toEqual([4, 5]);
    const three = withEntry(touched, adopted) ?? "";
    expect(three.startsWith(touched)).toBe(true);
    expect(readLog(three)?.entries).toEqual([reading, adopted, adopted]);
  });

  it("takes no other file for a log, and adds nothing to it", () => {
    for (const text of ["name: Lantern\n", "[]", '{"coilwrightLog":2}\n', "{"]) {
      expect(readLog(text)).toBeUndefined();
      expect(withEntry(text, reading)).toBeUndefined();
    }
    expect(readLog("")?.entries).toEqual([]);
  });

  it("takes only entries with their kind, date, numbers and lists", () => {
    for (const wrong of [
      null,
      [],
      { ...reading, kind: "note" },
      { ...reading, at: "soon" },
      { ...reading, value: "41 nF" },
      { ...reading, says: undefined },
      { ...adopted, edits: "tap" },
      { ...adopted, edits: [1] },
      { ...adopted, kind: "toString" },
    ])
      expect(isLogEntry(wrong), JSON.stringify(wrong)).toBe(false);
  });
});
