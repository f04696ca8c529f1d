/** How times are written, and rows that do not stand in one even column. */
import { describe, expect, it } from "vitest";
import { each, expectWave, interval, other, read, rows, rulesOf, textOf, wave } from "./samples.ts";

const time = (row: number) => (row * interval).toExponential(6);

// law: the same instants, however they are written
describe("a time column", () => {
  it("may begin before the trigger", () => {
    const lines = each((row) => `${((row - 100) * interval).toExponential(6)},${wave(row)}`);
    expectWave(read(textOf(["t (s),u (V)", ...lines])), { start: -100 * interval });
  });

  it("may be found by its equal steps, and its unit is said to be taken as seconds", () => {
    const lines = each((row) => `${wave(row)},${time(row)}`);
    const reading = read(textOf(["a,b", ...lines]));
    expectWave(reading, { rules: ["capture-time-without-unit"] });
    expect(reading.dialect?.columns.map(({ use }) => use)).toEqual(["channel", "time"]);
  });

  it("may be written with too few digits", () => {
    const lines = each((row) => `${(row * interval).toFixed(7)},${wave(row)}`);
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-time-rounded"]);
    expect(Math.abs((reading.record?.interval ?? 0) / interval - 1)).toBeLessThan(0.01);
  });

  it("may lack rows, which are kept as gaps", () => {
    const lines = each((row) => `${time(row)},${wave(row)}`).filter((_, row) => row < 50 || row > 54);
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-rows-missing"]);
    expect(reading.findings[0]).toMatchObject({
      place: { line: 52 },
      what: expect.stringContaining("5 rows are missing"),
    });
    const samples = reading.record?.channels[0]?.samples;
    expect(samples).toHaveLength(rows);
    expect(samples?.[52]).toBeNaN();
    expect(samples?.[55]).toBeCloseTo(wave(55), 6);
  });

  it("goes back: refused with the place", () => {
    const lines = each((row) => `${time(row === 120 ? 3 : row)},${wave(row)}`);
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toMatchObject([{ rule: "capture-time-backwards", place: { line: 122 } }]);
  });

  it("stands still: refused", () => {
    const reading = read(textOf(["t (s),u (V)", ...each((row) => `1.0,${wave(row)}`)]));
    expect(rulesOf(reading)).toEqual(["capture-time-stands-still"]);
    expect(reading.record).toBeUndefined();
  });

  it("is missing in a row, which is left out and counted", () => {
    const lines = each((row) => `${row === 100 ? "" : time(row)},${wave(row)}`);
    const reading = read(textOf(["t (s),u (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-row-without-time", "capture-rows-missing"]);
    expect(reading.findings[0]).toMatchObject({ place: { line: 102 } });
  });
});

describe("clock times", () => {
  const clock = (row: number, from = 45_296) => {
    const seconds = (from + row * 0.001) % 86_400;
    const two = (value: number) => String(Math.floor(value)).padStart(2, "0");
    return `${two(seconds / 3600)}:${two((seconds / 60) % 60)}:${(seconds % 60).toFixed(6).padStart(9, "0")}`;
  };
  it.each([
    ["alone", (row: number) => `${clock(row)},${wave(row)}`, "Time,CH1 (V)"],
    ["with a date", (row: number) => `2031-04-05 ${clock(row)},${wave(row)}`, "Timestamp,CH1 (V)"],
    ["as the standard for dates has it", (row: number) => `2031-04-05T${clock(row)}Z,${wave(row)}`, "when,CH1 (V)"],
    [
      "with a date in a column of its own",
      (row: number) => `05.04.2031;${clock(row)};${wave(row)}`,
      "Date;Time;CH1 (V)",
    ],
    [
      "with a decimal comma",
      (row: number) => `${clock(row).replace(".", ",")};${String(wave(row)).replace(".", ",")}`,
      "Zeit;CH1 (V)",
    ],
    ["without a header", (row: number) => `${clock(row)}\t${wave(row)}`, undefined],
    ["over midnight", (row: number) => `${clock(row, 86_399.9)},${wave(row)}`, "Time,CH1 (V)"],
    [
      "over midnight with a date",
      (row: number) => `2031-04-${row < 100 ? "05" : "06"} ${clock(row, 86_399.9)},${wave(row)}`,
      "Time,CH1 (V)",
    ],
  ])("are read %s, from the first row on", (_, line, header) => {
    const reading = read(textOf([...(header === undefined ? [] : [header]), ...each(line)]));
    expectWave(reading, { step: 1e-3, within: 1e-5 });
    expect(reading.dialect?.columns.find(({ use }) => use === "time")?.clock).toBe(true);
  });

  it("stand back where an elapsed time stands beside them", () => {
    const reading = read(
      textOf(["Clock,Elapsed (us),CH1 (V)", ...each((row) => `12:00:00,${(row * 0.04).toFixed(2)},${wave(row)}`)]),
    );
    expectWave(reading);
    expect(reading.dialect?.columns.map(({ use }) => use)).toEqual(["ignored", "time", "channel"]);
  });
});

// law: the same numbers, whichever way they are laid out
describe("rows that do not stand in one even column", () => {
  const half = rows / 2;
  it("are joined where the second half stands beside the first", () => {
    const lines = each((row) => `${time(row)},${wave(row)},${time(row + half)},${wave(row + half)}`, half);
    const reading = read(textOf(["t (s),CH1 (V),t (s),CH1 (V)", ...lines]));
    expectWave(reading);
    expect(reading.dialect?.columns.map(({ use }) => use)).toEqual(["time", "channel", "continuation", "continuation"]);
  });

  it("are joined where the second part is shorter", () => {
    const lines = each(
      (row) => `${time(row)},${wave(row)},${row < 100 ? `${time(row + 140)},${wave(row + 140)}` : ","}`,
      140,
    );
    const reading = read(textOf(["t (s),CH1 (V),t (s),CH1 (V)", ...lines]));
    expect(reading.record).toMatchObject({ length: rows });
    expect(reading.record?.channels[0]?.samples[rows - 1]).toBeCloseTo(wave(rows - 1), 6);
  });

  it("are not joined where the second column is another time axis, and that is said", () => {
    const lines = each((row) => `${time(row)},${wave(row)},${(1 + row * interval).toFixed(9)},${other(row)}`);
    const reading = read(textOf(["t (s),CH1 (V),t (s),CH2 (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-second-time"]);
    expect(reading.record?.length).toBe(rows);
  });

  it("take a repeated time column as one", () => {
    const lines = each((row) => `${time(row)},${wave(row)},${time(row)},${other(row)}`);
    expectWave(read(textOf(["t (s),CH1 (V),t (s),CH2 (V)", ...lines])), { channels: [wave, other] });
  });

  it("are channels where blocks of the same times stand one below the other", () => {
    const block = (name: string, signal: (row: number) => number) => [
      name,
      "Time (s),Voltage (V)",
      ...each((row) => `${time(row)},${signal(row)}`),
    ];
    const reading = read(textOf([...block("Channel: CH1", wave), "", ...block("Channel: CH2", other)]));
    expectWave(reading, { channels: [wave, other], rules: ["capture-channels-stacked"] });
    expect(reading.record?.channels.map(({ name }) => name)).toEqual(["CH1", "CH2"]);
    expect(reading.findings[0]).toMatchObject({ place: { line: rows + 6 } });
  });

  it("are channels where blocks stand below each other without times, in units of their own", () => {
    const reading = read(
      textOf([
        "Sample Interval,4e-8",
        "CH1 (V)",
        ...each((row) => String(wave(row))),
        "CH2 (mV)",
        ...each((row) => String(other(row) * 1000)),
      ]),
    );
    expectWave(reading, { channels: [wave, other], rules: ["capture-channels-stacked"] });
  });
});
