/** How cells and lines are written. */
import { describe, expect, it } from "vitest";
import { readCapture } from "../../../src/readers/capture.ts";
import { bytesOf, each, expectWave, interval, other, read, rulesOf, textOf, wave } from "./samples.ts";

const time = (row: number) => (row * interval).toExponential(6);
const comma = (value: number | string) => String(value).replace(".", ",");
const plain = textOf(["Time (s),CH1 (V)", ...each((row) => `${time(row)},${wave(row)}`)]);

// law: whatever the dialect, the numbers that were written are the numbers that are read
describe("a record of two columns", () => {
  it.each([
    ["commas", plain],
    ["semicolons", plain.replaceAll(",", ";")],
    ["tabs", plain.replaceAll(",", "\t")],
    ["spaces", textOf(["Time CH1", "s V", ...each((row) => `  ${time(row)}   ${wave(row)}`)])],
    ["bars", plain.replaceAll(",", "|")],
    ["spaces after the commas", plain.replaceAll(",", ", ")],
    [
      "a comma after each row",
      textOf(
        plain
          .trimEnd()
          .split("\n")
          .map((line) => `${line},`),
      ),
    ],
    ["CRLF", plain.replaceAll("\n", "\r\n")],
    ["lone CR", plain.replaceAll("\n", "\r")],
    ["no end of the last line", plain.trimEnd()],
    ["blank lines at the end", `${plain}\n\n`],
    ["a byte order mark", `\ufeff${plain}`],
    [
      "quoted cells",
      textOf(
        plain
          .trimEnd()
          .split("\n")
          .map((line) => line.replace(/[^,]+/g, '"$&"')),
      ),
    ],
    ["quoted names with a comma in them", plain.replace("CH1 (V)", '"CH1, loop (V)"')],
    ["no header at all", textOf(each((row) => `${time(row)},${wave(row)}`))],
    [
      "explicit signs",
      textOf(["t (s),u (V)", ...each((row) => `+${time(row)},${wave(row) < 0 ? "" : "+"}${wave(row)}`)]),
    ],
    ["no zero before the point", plain.replace(/,(-?)0\./g, ",$1.")],
    [
      "exponents of letter D",
      textOf(["t (s),u (V)", ...each((row) => `${time(row).replace("e", "D")},${wave(row).toExponential(4)}`)]),
    ],
    [
      "exponents of letter E with a sign",
      textOf([
        "t (s),u (V)",
        ...each((row) => `${time(row).toUpperCase()},${wave(row).toExponential(5).toUpperCase()}`),
      ]),
    ],
    [
      "comment signs before the header",
      textOf(["# bench 3", "# Time (s),CH1 (V)", ...each((row) => `${time(row)},${wave(row)}`)]),
    ],
    [
      "per cent signs before the header",
      textOf(["% bench 3", "% loop at 2 m", ...each((row) => `${time(row)},${wave(row)}`)]),
    ],
    [
      "a label before the names",
      textOf(["# columns: time[s] loop[V]", ...each((row) => `  ${time(row)}   ${wave(row)}`)]),
    ],
    [
      "bars around the cells and a line below the names",
      textOf(["| t (s) | u (V) |", "|-------|-------|", ...each((row) => `| ${time(row)} | ${wave(row)} |`)]),
    ],
  ])("is read with %s", (name, text) => {
    const unnamed = name.includes("no header") || name.includes("per cent");
    expectWave(read(text), { rules: unnamed ? ["capture-time-without-unit"] : [] });
  });

  it("is read with a decimal comma between semicolons and between tabs", () => {
    const lines = (cut: string) =>
      textOf([`Zeit (s)${cut}Kanal 1 (V)`, ...each((row) => `${comma(time(row))}${cut}${comma(wave(row))}`)]);
    for (const cut of [";", "\t"]) {
      const reading = read(lines(cut));
      expectWave(reading);
      expect(reading.dialect).toMatchObject({ delimiter: cut, decimal: "," });
    }
  });

  it("is read with a decimal comma in quotes between commas", () => {
    expectWave(read(textOf(["t (s),u (V)", ...each((row) => `"${comma(time(row))}","${comma(wave(row))}"`)])));
  });

  it.each([
    ["utf-16le", true],
    ["utf-16be", true],
    ["utf-16le", false],
    ["utf-16be", false],
  ] as const)("is read as %s, with a byte order mark: %s", (encoding, mark) => {
    const text = `${mark ? "\ufeff" : ""}${plain}`;
    const bytes = new Uint8Array(2 * text.length);
    const view = new DataView(bytes.buffer);
    for (let i = 0; i < text.length; i++) view.setUint16(2 * i, text.charCodeAt(i), encoding === "utf-16le");
    const reading = readCapture(bytes);
    expectWave(reading);
    expect(reading.dialect?.encoding).toBe(encoding);
  });

  it("is read in the one-byte code of Western Europe", () => {
    const bytes = Uint8Array.from(
      textOf(["t (\u00b5s),u (V)", ...each((row) => `${(row * interval * 1e6).toFixed(2)},${wave(row)}`)]),
      (c) => c.charCodeAt(0),
    );
    const reading = readCapture(bytes);
    expectWave(reading);
    expect(reading.dialect?.encoding).toBe("windows-1252");
  });
});

// law: a sign between groups of three digits changes no number
describe("thousands", () => {
  const big = (row: number) => 1000 * wave(row) * 1.5;
  const grouped = (value: number, sign: string, point: string) => {
    const [whole = "", part = ""] = value.toFixed(1).split(".");
    return `${whole.replace(/\B(?=(\d{3})+$)/g, sign)}${point}${part}`;
  };
  it.each([
    ["commas in quotes", (row: number) => `${time(row)},"${grouped(big(row), ",", ".")}"`, "t (s),u (V)"],
    [
      "points, with a decimal comma",
      (row: number) => `${comma(time(row))};${grouped(big(row), ".", ",")}`,
      "t (s);u (V)",
    ],
    ["apostrophes", (row: number) => `${time(row)};${grouped(big(row), "'", ".")}`, "t (s);u (V)"],
    ["narrow spaces", (row: number) => `${comma(time(row))};${grouped(big(row), "\u202f", ",")}`, "t (s);u (V)"],
  ])("are read with %s", (_, line, header) => {
    expectWave(read(textOf([header, ...each(line)])), { channels: [big], within: 1e-3 });
  });

  it("are not taken for thousands where no decimal sign was seen before: they are gaps, and counted", () => {
    const lines = each((row) => `${row};${row < 450 ? 0 : "1,234"}`, 600);
    const reading = read(textOf(["t (us);u (V)", ...lines]));
    expect(reading.findings).toMatchObject([
      { rule: "capture-not-a-number", place: { line: 452, column: 5 }, what: expect.stringContaining("150 cells") },
    ]);
    expect(reading.record?.channels[0]?.samples[450]).toBeNaN();
    expect(read(textOf(["t (us);u (V)", ...lines]), { decimal: "," }).record?.channels[0]?.samples[450]).toBeCloseTo(
      1.234,
      5,
    );
  });

  it("are not seen in three decimals after a comma", () => {
    const lines = each((row) => `${comma(time(row))};${comma((1.5 + other(row)).toFixed(3))}`);
    expectWave(read(textOf(["t (s);u (V)", ...lines])), { channels: [(row) => 1.5 + other(row)] });
  });
});

// law: every row and every cell that is no number is counted, placed and left as a gap
describe("what is no number", () => {
  const holed = (cells: Readonly<Record<number, string>>) =>
    read(textOf(["t (s),u (V)", ...each((row) => `${time(row)},${cells[row] ?? wave(row)}`)]));

  it("is a gap where the cell is blank", () => {
    const reading = holed({ 30: "", 31: "", 90: "" });
    expect(reading.findings).toMatchObject([
      {
        rule: "capture-missing",
        severity: "look",
        place: { line: 32, column: 13 },
        what: expect.stringContaining("3 values are missing"),
      },
    ]);
    const samples = reading.record?.channels[0]?.samples ?? new Float32Array();
    expect([...samples.keys()].filter((row) => Number.isNaN(samples[row]))).toEqual([30, 31, 90]);
  });

  it.each(["nan", "NaN", "n/a", "--", "null", "1.#QNAN", "9.91E37"])("is a gap where the cell says %s", (word) => {
    expect(holed({ 30: word }).record?.channels[0]?.samples[30]).toBeNaN();
  });

  it.each([
    ["OVER", 1],
    ["inf", 1],
    ["-inf", -1],
    ["****", 1],
    ["OVRNG", 1],
    ["-OVER", -1],
    ["9.9E+37", 1],
    ["-9.9E+37", -1],
    ["1.#INF", 1],
    ["UNDERFLOW", -1],
    ["1e400", 1],
  ])("is over the range where the cell says %s", (word, side) => {
    const reading = holed({ 8: word });
    expect(reading.record?.channels[0]?.samples[8]).toBe(side * Number.POSITIVE_INFINITY);
    expect(rulesOf(reading)).toEqual(["capture-over-range"]);
  });

  it("is over the range on the side of the sample before where the word does not say which", () => {
    // sin(25 / 7) < 0
    expect(holed({ 25: "OVER" }).record?.channels[0]?.samples[25]).toBe(Number.NEGATIVE_INFINITY);
  });

  it("is a gap where text stands in a number", () => {
    const reading = holed({ 30: "0.4x", 60: "hello" });
    expect(reading.record?.length).toBe(240);
    expect(reading.findings).toMatchObject([
      {
        rule: "capture-not-a-number",
        place: { line: 32, column: 13 },
        what: expect.stringContaining("2 cells are not numbers, the first is `0.4x`"),
      },
    ]);
  });

  it("is a gap in the first row too", () => {
    const reading = holed({ 0: "abc", 1: "1;5" });
    expect(reading.findings).toMatchObject([
      { rule: "capture-not-a-number", place: { line: 2, column: 13 }, what: expect.stringContaining("2 cells") },
    ]);
    expect(reading.record?.length).toBe(240);
  });

  it("is counted where a row is short or long", () => {
    const lines = each((row) => `${time(row)},${wave(row)}${row === 50 ? ",7" : ""}`).map((line, row) =>
      row === 40 ? time(row) : line,
    );
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(rulesOf(reading).toSorted()).toEqual(["capture-long-row", "capture-short-row"]);
    expect(reading.findings.map(({ place }) => place?.line).toSorted()).toEqual([42, 52]);
  });

  it("is left out and counted where lines of text stand between and after the rows", () => {
    const lines = [...each((row) => `${time(row)},${wave(row)}`)];
    lines.splice(100, 0, "# moved the loop", "# nearer");
    const reading = read(textOf(["t (s),u (V)", ...lines, "end of record"]));
    expectWave(reading, { rules: ["capture-text-line", "capture-text-after-rows"] });
    expect(reading.findings).toMatchObject([
      { place: { line: 102 }, what: expect.stringContaining("2 lines of text") },
      { place: { line: 244 } },
    ]);
  });

  it("is a gap in its place where a row's time is no number", () => {
    const lines = each((row) => (row === 100 ? `x,${wave(row)}` : `${time(row)},${wave(row)}`));
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-text-line", "capture-rows-missing"]);
    expect(reading.record?.channels[0]?.samples[100]).toBeNaN();
    expect(reading.record?.channels[0]?.samples[101]).toBeCloseTo(wave(101), 6);
  });
});

// law: a comma before whole digits with a power of ten is decimal; two columns never look so
describe("one column with a decimal comma and a power of ten", () => {
  it("is one channel", () => {
    const lines = each((row) => comma(wave(row).toExponential(5)));
    expectWave(read(textOf(["SampleInterval=4,0E-8", "Name=loop", "[Data]", ...lines])));
  });
});

// law: a hexadecimal code is the number it writes
describe("hexadecimal codes", () => {
  const level = (row: number) => Math.round(60 * Math.sin(row / 7)) + 128;

  it.each([
    ["0x before", (digits: string) => `0x${digits}`],
    ["h behind", (digits: string) => `0${digits}h`],
  ])("are read with %s", (_, written) => {
    const lines = each((row) => written(level(row).toString(16).toUpperCase()));
    expectWave(read(textOf(["Sample Interval,4e-8", "CH1", ...lines])), { channels: [level] });
  });

  it("are refused bare, for some of them look like decimals", () => {
    const reading = read(textOf(["Sample Interval,4e-8", ...each((row) => level(row).toString(16))]));
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toMatchObject([{ rule: "capture-hexadecimal", severity: "stop" }]);
    expect(reading.findings[0]?.place?.line).toBeGreaterThan(1);
  });
});

// law: nobody can tell the two commas apart; it is said instead of guessed
describe("decimal commas between commas", () => {
  it("are refused with a way out", () => {
    const reading = read(
      textOf([
        "t,a,b",
        ...each((row) => `0,${String(row).padStart(3, "0")},1,${String(row % 90).padStart(3, "0")},0,5`),
      ]),
    );
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toMatchObject([{ rule: "capture-decimal-comma", severity: "stop", place: { line: 2 } }]);
    expect(reading.findings[0]?.remedies).not.toHaveLength(0);
  });

  it("are refused before powers of ten too", () => {
    const lines = each((row) => `${comma(time(row))},${comma(wave(row).toExponential(4))}`);
    expect(rulesOf(read(textOf(["t,u", ...lines])))).toEqual(["capture-decimal-comma"]);
  });
});

// law: parts may be cut anywhere
describe("a record in pieces", () => {
  it("is the same whatever the pieces are", async () => {
    const { readCaptureInPieces } = await import("../../../src/readers/capture.ts");
    const whole = read(plain);
    for (const size of [1, 7, 1000]) {
      const bytes = bytesOf(plain);
      const pieces = Array.from({ length: Math.ceil(bytes.length / size) }, (_, n) =>
        bytes.slice(n * size, (n + 1) * size),
      );
      expect(await readCaptureInPieces(pieces)).toEqual(whole);
    }
  });
});
