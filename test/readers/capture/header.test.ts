/** What the lines before the rows say: interval, start, names, units, codes of a converter. */
import { describe, expect, it } from "vitest";
import { each, expectWave, interval, other, read, rows, rulesOf, textOf, wave } from "./samples.ts";

const time = (row: number) => (row * interval).toExponential(6);
const one = each((row) => String(wave(row)));

// law: an interval is an interval, whichever word and unit it is written with
describe("a record with its sample interval in the header", () => {
  it.each([
    ["Sample Interval,4e-8", "CH1 (V)"],
    ["Sample Interval,40,ns", "CH1 (V)"],
    ["Sampling Period: 0.04 us", "CH1 (V)"],
    ["Sample Rate,25 MSa/s", "CH1 (V)"],
    ["Sample rate (MHz),25", "CH1 (V)"],
    ["sampling frequency = 25000000", "CH1 (V)"],
    ["fs: 25 MHz", "CH1 (V)"],
    ["dt,4.0E-08", "CH1 (V)"],
    ["Time step [ns],40", "CH1 (V)"],
    ["# XINCR = 4.0e-8", "CH1 (V)"],
    ["x_increment,4e-8", "CH1 (V)"],
    ["Delta t;4e-8", "CH1 (V)"],
    ["Abtastrate;25 MS/s", "CH1 (V)"],
  ])("reads %s", (line, names) => {
    const reading = read(textOf(["bench scope", line, names, ...one]));
    expectWave(reading);
    expect(reading.dialect?.interval).toBeCloseTo(interval, 14);
    expect(reading.dialect?.reasons.find(({ part }) => part === "time")?.because).toContain("line 2");
  });

  it.each([
    ["a unit with a great letter", ["Name:,loop", "Sampling Period(uS):0.04000", "Volt"], "V"],
    ["a rate in samples per second", ["Sample Rate: 25 MSPS", "CH1 (V)"], "V"],
    ["a rate behind a comment sign", ["; rate=25000000", "; unit=V"], "V"],
    ["an instrument's answer", [':WFM:XINCR 4.0E-8;XZERO 0.0;XUNIT "s";YUNIT "V"'], "V"],
  ])("reads %s, and takes no key for a name", (_, header, unit) => {
    const reading = read(textOf([...header, ...one]));
    expectWave(reading);
    expect(reading.record?.channels[0]?.unit).toBe(unit);
    expect(reading.record?.channels[0]?.name).toMatch(/^(?:CH1|channel 1|loop|Volt)$/);
  });

  it("takes no interval whose unit is not understood", () => {
    const reading = read(textOf(["Sampling Period (fortnight),0.04", "CH1 (V)", ...one]));
    expect(rulesOf(reading)).toEqual(["capture-without-time"]);
  });

  it("reads a start, the rows that are announced, and a row of units", () => {
    const header = ["Start Time,-0.000002", "Record Length,240 points", "Increment,4E-8", "CH1,CH2", "V,mV"];
    const reading = read(textOf([...header, ...each((row) => `${wave(row)},${other(row) * 1000}`)]));
    expectWave(reading, { channels: [wave, other], start: -2e-6 });
    expect(reading.dialect?.rowsAnnounced).toBe(rows);
  });

  it("says that rows are missing at the end", () => {
    const reading = read(textOf(["Record Length,500", "Increment,4E-8", "CH1 (V)", ...one]));
    expect(rulesOf(reading)).toEqual(["capture-shorter-than-announced"]);
  });

  it("takes names and values that stand one above the other", () => {
    const header = ["X Origin,X Increment,Points", "-1e-6,4e-8,240", "CH1 (V),CH2 (V)"];
    const reading = read(textOf([...header, ...each((row) => `${wave(row)},${other(row)}`)]));
    expectWave(reading, { channels: [wave, other], start: -1e-6 });
  });

  it("takes a header that stands beside the first rows", () => {
    const beside = ["Record Length,240", "Sample Interval,4e-8", "Vertical Units,V", "Source,CH2"];
    const lines = each((row) => `${beside[row] ?? ","},${time(row)},${wave(row)}`);
    const reading = read(textOf(lines));
    expect(reading.record?.channels).toMatchObject([{ unit: "V", name: "CH2" }]);
    expect(reading.record?.channels[0]?.samples[9]).toBeCloseTo(wave(9), 6);
    expect(reading.record?.interval).toBeCloseTo(interval, 14);
  });

  it("skips numbered rows", () => {
    const reading = read(textOf(["Sample Interval,4e-8", "Index,CH1 (V)", ...each((row) => `${row},${wave(row)}`)]));
    expectWave(reading);
    expect(reading.dialect?.columns.map(({ use }) => use)).toEqual(["index", "channel"]);
  });

  it("says where header and time column disagree, and takes the column", () => {
    const reading = read(
      textOf(["Sample Interval,5e-8", "t (s),u (V)", ...each((row) => `${time(row)},${wave(row)}`)]),
    );
    expectWave(reading, { rules: ["capture-interval-disagrees"] });
  });

  it("refuses a record that says nothing of time, and says what to do", () => {
    const reading = read(textOf(["CH1 (V)", ...one]));
    expect(reading.record).toBeUndefined();
    expect(reading.findings).toMatchObject([{ rule: "capture-without-time", severity: "stop", place: { line: 2 } }]);
    expect(reading.findings[0]?.remedies.length).toBeGreaterThan(0);
  });
});

// law: 1000 mV is 1 V, whichever way a header says so
describe("units", () => {
  it.each([
    ["Time (us),CH1 (mV)", 1e6, 1e3, "V"],
    ["Time [ms],CH1 [V]", 1e3, 1, "V"],
    ["Time/µs,Current/mA", 1e6, 1e3, "A"],
    ["time in ns,loop in kV", 1e9, 1e-3, "V"],
    ["Time,CH1\n(us),(mV)", 1e6, 1e3, "V"],
    ["Time,CH1\nSecond,Volt", 1, 1, "V"],
    ["x-axis,1\nsecond,Ampere", 1, 1, "A"],
    ["Elapsed (ms),CH1 (V)", 1e3, 1, "V"],
    ["time ns,loop mV", 1e9, 1e3, "V"],
    ['"Время, мкс","Ток, мА"', 1e6, 1e3, "A"],
    ["时间(微秒),通道1(毫伏)", 1e6, 1e3, "V"],
    ["tid [ms],spole [mV]", 1e3, 1e3, "V"],
  ])("are read from %s", (header, perSecond, perUnit, unit) => {
    const lines = each(
      (row) => `${(row * interval * perSecond).toPrecision(9)},${(wave(row) * perUnit).toPrecision(7)}`,
    );
    const reading = read(textOf([header, ...lines]));
    expectWave(reading);
    expect(reading.record?.channels[0]?.unit).toBe(unit);
  });

  it("are kept as written where they are not known, and that is said", () => {
    const reading = read(textOf(["t (s),CH1 (furlong)", ...each((row) => `${time(row)},${wave(row)}`)]));
    expectWave(reading, { rules: ["capture-unit-unknown"] });
    expect(reading.record?.channels[0]?.unit).toBe("1");
  });
});

// independent: the volts are made first, the codes from them
describe("codes of a converter", () => {
  const increment = 0.02;
  const codes =
    (reference: number, origin = 0) =>
    (row: number) =>
      Math.round((wave(row) - origin) / increment) + reference;
  const volts = (row: number) => Math.round(wave(row) / increment) * increment;
  const withHeader = (header: readonly string[], reference = 0) =>
    textOf([...header, "t (s),CH1 (V)", ...each((row) => `${time(row)},${codes(reference)(row)}`)]);

  it.each([
    ["an increment", ["Y Increment,0.02"], 0],
    ["an increment with its unit", ["Vertical Increment,20 mV"], 0],
    ["increment and reference", ["YINC,0.02", "YREF,128"], 128],
    ["increment and an offset in levels", ["y-increment: 0.02", "y-offset: 128"], 128],
    ["names above values", ["X Increment,Y Increment,Y Reference", "4e-8,0.02,127"], 127],
    ["volts per code", ["Volts per LSB,0.02", "Zero level,2048"], 2048],
    ["an instrument's answer", [":PRE:YMULT 0.02;YOFF 128;YZERO 0.0"], 128],
  ])("are scaled by %s, and that is said", (_, header, reference) => {
    const reading = read(withHeader(header, reference));
    expectWave(reading, { channels: [volts], rules: ["capture-codes-scaled"] });
    expect(reading.dialect?.columns[1]?.codes).toEqual({ increment, origin: 0, reference });
    expect(reading.findings[0]?.what).toMatch(new RegExp(`\\(code − ${reference}\\) · 20\\.00\\smV`));
    expect(reading.findings[0]?.remedies.length).toBeGreaterThan(0);
  });

  it("are moved by an offset in volts", () => {
    const text = textOf([
      "Y Increment,0.02 V",
      "Y Offset,0.5 V",
      "t (s),CH1 (V)",
      ...each((row) => `${time(row)},${codes(0, 0.5)(row)}`),
    ]);
    expectWave(read(text), {
      channels: [(row) => codes(0, 0.5)(row) * increment + 0.5],
      rules: ["capture-codes-scaled"],
    });
  });

  it("are scaled channel by channel, in one row or by the channel's name", () => {
    const lines = each((row) => `${codes(0)(row)},${Math.round(other(row) / 0.005)}`);
    const second = (row: number) => Math.round(other(row) / 0.005) * 0.005;
    for (const header of [["Y Increment,0.02,0.005"], ["CH1 Y Increment,0.02", "CH2 Y Increment,0.005"]]) {
      const reading = read(textOf(["dt,4e-8", ...header, "CH1 (V),CH2 (V)", ...lines]));
      expectWave(reading, { channels: [volts, second], rules: ["capture-codes-scaled", "capture-codes-scaled"] });
    }
  });

  it("are not seen in samples that have fractions", () => {
    expectWave(read(textOf(["Y Increment,0.001", "t (s),CH1 (V)", ...each((row) => `${time(row)},${wave(row)}`)])));
  });

  it("are left alone where a person says that they are none, and scaled as the person says", () => {
    const text = withHeader(["Y Increment,0.02"]);
    expectWave(read(text, { columns: { 1: { codes: "none" } } }), { channels: [codes(0)] });
    const set = { increment: 0.04, origin: 1, reference: 10 };
    expectWave(read(text, { columns: { 1: { codes: set } } }), {
      channels: [(row) => (codes(0)(row) - 10) * 0.04 + 1],
    });
  });

  it("are doubted where a fraction comes after all", () => {
    const lines = each((row) => `${time(row)},${row < 420 ? row % 3 : (row % 3) + 0.5}`, 600);
    const reading = read(textOf(["Y Increment,0.02", "t (s),CH1 (V)", ...lines]));
    expect(rulesOf(reading)).toContain("capture-codes-doubtful");
    expect(reading.findings.find(({ rule }) => rule === "capture-codes-doubtful")?.what).toContain("180 values");
  });
});

// law: what is known better is taken
describe("the guess is shown and can be corrected", () => {
  const text = textOf(["t (s),loop (V),ct (V)", ...each((row) => `${time(row)},${wave(row)},${other(row)}`)]);

  it("is shown part by part with reasons", () => {
    const { dialect } = read(text);
    expect(dialect).toMatchObject({
      format: "csv",
      encoding: "utf-8",
      delimiter: ",",
      decimal: ".",
      headerLines: 1,
      columns: [
        { use: "time", unit: "s" },
        { name: "loop", use: "channel", unit: "V", role: "pickupLoop" },
        { name: "ct", use: "channel", role: "primaryCurrent" },
      ],
    });
    for (const part of ["encoding", "delimiter", "decimal", "headerLines", "time", "columns.1", "columns.2"])
      expect(dialect?.reasons.find((reason) => reason.part === part)?.because).toMatch(/\w/);
  });

  it("delimiter, decimal sign and header lines", () => {
    const lines = each((row) => `${row};${row % 7},${row % 10}`);
    const reading = read(textOf(["1;2", ...lines]), { delimiter: ";", decimal: ",", headerLines: 1, interval: 1e-6 });
    expectWave(reading, { channels: [(row) => (row % 7) + (row % 10) / 10], step: 1e-6 });
    expect(reading.dialect?.reasons.filter(({ because }) => because === "set").map(({ part }) => part)).toEqual([
      "delimiter",
      "decimal",
      "headerLines",
    ]);
  });

  it("sample interval and start, instead of the time column", () => {
    const reading = read(text, { interval: 1e-6, start: -3 });
    expect(reading.record).toMatchObject({ interval: 1e-6, start: -3, length: rows });
  });

  it("use, name, unit, scale, role and transducer of a column", () => {
    const transducer = { ratio: 1000, burden: 5 };
    const reading = read(text, {
      columns: { 1: { use: "ignored" }, 2: { name: "tank", unit: "mV", scale: 10, role: "bus", transducer } },
    });
    expect(reading.record?.channels).toMatchObject([{ name: "tank", unit: "V", role: "bus", transducer }]);
    expect(reading.record?.channels[0]?.samples[5]).toBeCloseTo(other(5) * 0.01, 8);
  });

  it("which column is the time", () => {
    const swapped = textOf(["a,b", ...each((row) => `${wave(row)},${row * 40}`)]);
    const reading = read(swapped, { columns: { 1: { use: "time", unit: "ns" } } });
    expectWave(reading);
  });

  it("encoding, format and name", () => {
    const reading = read(text, { encoding: "windows-1252", format: "csv", name: "first" });
    expect(reading.record?.name).toBe("first");
    expect(reading.dialect?.encoding).toBe("windows-1252");
    expect(rulesOf(read(text, { format: "wav" }))).toEqual(["capture-wav"]);
    expect(rulesOf(read(text, { format: "json" }))).toEqual(["capture-json"]);
  });
});
