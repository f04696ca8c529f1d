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

  it("may lack its unit; seconds in which no coil swings are to be mended", () => {
    const reading = read(textOf(["time,u", ...each((row) => `${row * 0.04},${wave(row)}`)]));
    expect(reading.findings).toMatchObject([{ rule: "capture-time-without-unit", severity: "fix" }]);
    expect(reading.findings[0]?.what).toMatch(/40\.00\sms between two rows/);
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

  it.each([
    ["named", "t (s),u (V)", ["capture-time-falls"]],
    ["found by its equal steps", "a,b", ["capture-time-without-unit", "capture-time-falls"]],
  ])("may begin with the last sample, %s: the rows are turned round", (_, header, rules) => {
    const lines = each((row) => `${time(row)},${wave(row)}`).toReversed();
    expectWave(read(textOf([header, ...lines])), { rules });
  });

  // The steps of double precision near the year 2026 are 238 ns: they are seen through as any rounding is.
  it("may count from 1970", () => {
    const seconds = each((row) => `${1_772_627_411 + row * 4e-7},${wave(row)}`);
    const nanoseconds = each((row) => `1772627411${String(1e8 + row * 400)},${wave(row)}`);
    for (const text of [textOf(["epoch (s),u (V)", ...seconds]), textOf(["timestamp_ns,u (V)", ...nanoseconds])]) {
      const reading = read(text);
      expect(rulesOf(reading).filter((rule) => rule !== "capture-time-rounded")).toEqual([]);
      expect(Math.abs((reading.record?.interval ?? 0) / 4e-7 - 1)).toBeLessThan(0.001);
      expect(reading.record?.channels[0]?.samples[55]).toBeCloseTo(wave(55), 6);
    }
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

// independent: the sine is known at every instant; four points of it to a sixteenth of a cycle leave an error below 1e-3
describe("uneven times", () => {
  const sine = (t: number) => Math.sin(2 * Math.PI * t * 1e5);
  const uneven = (at: (row: number) => number, count = 400) =>
    read(
      textOf([
        "time_s,primary_current_A",
        ...each((row) => `${at(row).toPrecision(12)},${sine(at(row)).toPrecision(9)}`, count),
      ]),
    );

  it("are resampled where they rise, and that is said with its place", () => {
    const step = 6.25e-7;
    const reading = uneven((row) => step * (row + (row % 5 === 3 ? 0.4 : 0)));
    expect(rulesOf(reading)).toEqual(["capture-time-uneven"]);
    expect(reading.findings[0]).toMatchObject({
      severity: "look",
      place: { line: 5 },
      what: expect.stringContaining("resampled"),
    });
    const { record } = reading;
    expect(record?.channels[0]).toMatchObject({ name: "primary_current", unit: "A", role: "primaryCurrent" });
    const worst = Array.from(record?.channels[0]?.samples ?? [], (value, n) =>
      Math.abs(value - sine((record?.start ?? 0) + n * (record?.interval ?? 0))),
    );
    expect(Math.max(...worst)).toBeLessThan(2e-3);
  });

  it("draw no swing across an edge that two near rows hold", () => {
    const at = (row: number) => (row < 100 ? row * 1e-6 : row === 100 ? 99.01e-6 : (row - 1) * 1e-6);
    const lines = each((row) => `${at(row).toPrecision(10)},${row < 100 ? -600 : 600}`);
    const reading = read(textOf(["t (s),bridge (V)", ...lines]));
    expect(rulesOf(reading)).toEqual(["capture-time-uneven"]);
    const samples = reading.record?.channels[0]?.samples ?? new Float32Array();
    expect(Math.max(...samples.map(Math.abs))).toBeLessThanOrEqual(600.001);
    expect(samples[99]).toBe(-600);
    expect(samples[100]).toBeCloseTo(600, 3);
  });

  it("are refused over a gap that nobody can fill, with a way out", () => {
    const reading = uneven((row) => 1e-6 * (row + (row % 3) * 0.3) + (row < 200 ? 0 : 0.01));
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toMatchObject([{ rule: "capture-time-uneven", severity: "stop", place: { line: 202 } }]);
    expect(reading.findings[0]?.remedies.length).toBeGreaterThan(0);
  });
});
