/** Files that nobody meant to write. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCapture, readCaptureInPieces } from "../../../src/readers/capture.ts";
import { bytesOf, each, interval, other, textOf, wave } from "./samples.ts";

const time = (row: number) => (row * interval).toExponential(6);
const good = bytesOf(
  textOf([
    "Model,invented",
    "Sample Interval,4e-8",
    "t (s),CH1 (V),CH2 (mV)",
    ...each((row) => `${time(row)},${wave(row)},${other(row) * 1000}`, 60),
  ]),
);
const runs = { seed: 20_31, numRuns: 300 };

/** Every answer of the reader, whatever it was given. */
function expectAnswer(bytes: Uint8Array): ReturnType<typeof readCapture> {
  const reading = readCapture(bytes);
  const { record, findings } = reading;
  if (record === undefined) expect(findings.some(({ severity }) => severity === "stop")).toBe(true);
  else {
    expect(record.length).toBeGreaterThanOrEqual(2);
    expect(record.interval).toBeGreaterThan(0);
    expect(record.interval).toBeLessThan(Number.POSITIVE_INFINITY);
    expect(record.channels.length).toBeGreaterThan(0);
    for (const { samples } of record.channels) expect(samples).toHaveLength(record.length);
  }
  for (const { what, expected, place, severity, remedies } of findings) {
    expect(what).toMatch(/\w/);
    expect(what.length).toBeLessThan(400);
    expect(what).not.toMatch(/[\u0000-\u0008\u000b-\u001f\u007f]/);
    expect(expected ?? "").toMatch(/\w/);
    if (severity === "stop") expect(remedies.length).toBeGreaterThan(0);
    if (severity === "stop" && place !== undefined) {
      expect(place.line).toBeGreaterThan(0);
      expect(place.column).toBeGreaterThan(0);
    }
  }
  return reading;
}

// law: the reader answers every file with a record or with the reason why there is none, and never throws
describe("any bytes", () => {
  it("have an answer where they are random", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 3000 }), (bytes) => void expectAnswer(bytes)),
      runs,
    );
  });

  it("have an answer where they are random text of the signs that records have", () => {
    const signs = fc.string({
      unit: fc.constantFrom(..."0123456789.,;\t \n\r-+eE\"'#:/VsmAint{}[]\u0000µ"),
      maxLength: 2000,
    });
    fc.assert(
      fc.property(signs, (text) => void expectAnswer(bytesOf(text))),
      { ...runs, numRuns: 600 },
    );
  });

  it("have an answer where a record is cut off anywhere", () => {
    for (let length = 0; length < good.length; length += 11) expectAnswer(good.subarray(0, length));
  });

  it("have an answer where bytes of a record are changed, doubled or dropped", () => {
    const change = fc.record({
      at: fc.nat(good.length - 1),
      byte: fc.nat(255),
      kind: fc.constantFrom("set", "drop", "insert"),
    });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 30 }), (changes) => {
        const bytes = [...good];
        for (const { at, byte, kind } of changes)
          bytes.splice(at, kind === "insert" ? 0 : 1, ...(kind === "drop" ? [] : [byte]));
        expectAnswer(Uint8Array.from(bytes));
      }),
      runs,
    );
  });

  it("have an answer behind the beginnings of other formats", () => {
    const heads = [
      "RIFF\u0000\u0000\u0000\u0000WAVE",
      "RIFFxxxxWAVEfmt ",
      "{",
      '{"coilwrightRecord":1',
      "\ufeff{",
      "PK\u0003\u0004",
      "\u0089PNG\r\n",
      "%PDF-1.7",
    ];
    fc.assert(
      fc.property(fc.constantFrom(...heads), fc.uint8Array({ maxLength: 400 }), (head, rest) => {
        const start = Uint8Array.from(head, (c) => c.charCodeAt(0) & 255);
        expectAnswer(Uint8Array.from([...start, ...rest]));
      }),
      runs,
    );
  });

  it("have the same answer in pieces of any size", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.nat(200), { minLength: 1, maxLength: 20 }), async (sizes) => {
        const pieces: Uint8Array[] = [];
        for (let at = 0, n = 0; at < good.length; n++) {
          const size = (sizes[n % sizes.length] ?? 0) + 1;
          pieces.push(good.slice(at, at + size));
          at += size;
        }
        expect(await readCaptureInPieces(pieces)).toEqual(readCapture(good));
      }),
      { ...runs, numRuns: 40 },
    );
  });
});

// law: rows in = samples + rows that are counted in a finding
describe("nothing is lost", () => {
  const cell = fc.constantFrom(
    "0.5",
    "-1e-3",
    "abc",
    "",
    "OVER",
    "1,2",
    "\u0000",
    "12:3",
    "0x1f",
    "1e999",
    '"0.25"',
    '"',
    "..",
    "-",
    "1.2.3",
    "9".repeat(400),
  );
  it("of rows with anything in a cell", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(59), cell), { maxLength: 12 }), (cells) => {
        const odd = new Map(cells);
        const text = textOf(["t (s);CH1 (V)", ...each((row) => `${time(row)};${odd.get(row) ?? wave(row)}`, 60)]);
        const reading = expectAnswer(bytesOf(text));
        expect(reading.record?.length).toBe(60);
        const samples = reading.record?.channels[0]?.samples ?? new Float32Array();
        const counted = reading.findings.reduce((sum, { what }) => sum + Number(/^\d+/.exec(what)?.[0] ?? 0), 0);
        expect(counted).toBeGreaterThanOrEqual(samples.filter((value) => !Number.isFinite(value)).length);
        for (let row = 0; row < 60; row++) if (!odd.has(row)) expect(samples[row]).toBeCloseTo(wave(row), 6);
      }),
      runs,
    );
  });

  it("of swapped columns: the time is found where it is", () => {
    const swapped = textOf(["CH1 (V),t (s)", ...each((row) => `${wave(row)},${time(row)}`, 60)]);
    expect(readCapture(bytesOf(swapped)).record?.channels[0]?.samples[7]).toBeCloseTo(wave(7), 6);
  });

  it("of NUL bytes at the end", () => {
    const padded = new Uint8Array(good.length + 5000);
    padded.set(good);
    expect(readCapture(padded).record).toEqual(readCapture(good).record);
  });

  it("of mixed line ends", () => {
    const lines = each((row) => `${time(row)},${wave(row)}${row % 2 === 0 ? "\r" : ""}`, 60);
    expect(readCapture(bytesOf(textOf(["t (s),CH1 (V)", ...lines]))).record?.length).toBe(60);
  });

  it("of a huge field: it is refused with its line", () => {
    const huge = `${textOf(["t (s),CH1 (V)", ...each((row) => `${time(row)},${wave(row)}`, 60)])}${"7".repeat(1_500_000)}`;
    const reading = expectAnswer(bytesOf(huge));
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toContainEqual(
      expect.objectContaining({ rule: "capture-line-too-long", severity: "stop" }),
    );
    expect(reading.findings[0]?.place?.line).toBe(62);
  });

  it.each([
    ["a picture", "\x89PNG\r\n\x1a\n", /picture/],
    ["a packed file", "\x1f\x8b\x08", /packed/],
    ["a workbook", "PK\x03\x04", /workbook/],
    ["none that is known", "\x01\x02", /neither text nor/],
  ])("of %s: it is said that it is no record", (_, begins, says) => {
    const bytes = Uint8Array.from({ length: 4000 }, (_byte, n) => begins.charCodeAt(n) || (n * 7919) % 256);
    const { findings } = readCapture(bytes);
    expect(findings).toMatchObject([{ rule: "capture-not-text", severity: "stop" }]);
    expect(findings[0]?.what).toMatch(says);
  });

  it("of a last line that is cut anywhere: the rows before it are all there, and no half number among them", () => {
    const whole = textOf(["t (s),CH1 (V)", ...each((row) => `${time(row)},${wave(row).toExponential(4)}`, 60)]);
    for (let end = whole.lastIndexOf("\n", whole.length - 2) + 2; end < whole.length - 1; end++) {
      const { record, findings } = readCapture(bytesOf(whole.slice(0, end)));
      const samples = Array.from(record?.channels[0]?.samples ?? []).slice(0, 59);
      expect(samples).toHaveLength(59);
      for (const [row, value] of samples.entries()) expect(value).toBeCloseTo(wave(row), 4);
      // Where only the exponent lacks a digit nobody can tell.
      expect(record?.length === 59 || Number.isNaN(record?.channels[0]?.samples[59])).toBe(true);
      expect(findings).toMatchObject([{ place: { line: 61 } }]);
    }
  });

  it("of a record that lies on its side, or has no line ends: it is refused at once", () => {
    const numbers = Array.from({ length: 100_000 }, (_, n) => n % 7).join(",");
    expect(expectAnswer(bytesOf(`t,${numbers}\nu,${numbers}\n`)).findings).toMatchObject([
      { rule: "capture-too-wide", place: { line: 1 } },
    ]);
  });
});
