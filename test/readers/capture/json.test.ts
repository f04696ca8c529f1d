/** The project's own form of a record. */
import { describe, expect, it } from "vitest";
import { writeRecord } from "../../../src/readers/capture.ts";
import { read, rulesOf } from "./samples.ts";

const written = `{
  "coilwrightRecord": 1,
  "name": "first light",
  "start": -0.00002,
  "interval": 1e-7,
  "channels": [
    { "name": "CH1", "unit": "mV", "role": "primaryCurrent", "ratio": 1000, "burden": 5.1,
      "samples": [0, 10, null, "over", "under", -2.5e1] }
  ]
}
`;

// law: what is written is read back as it was
describe("a record in JSON", () => {
  it("is read as documented", () => {
    const { record, findings } = read(written);
    expect(findings).toEqual([]);
    expect(record).toMatchObject({ name: "first light", start: -2e-5, interval: 1e-7, length: 6 });
    const [channel] = record?.channels ?? [];
    expect(channel).toMatchObject({
      name: "CH1",
      unit: "V",
      role: "primaryCurrent",
      transducer: { ratio: 1000, burden: 5.1 },
    });
    expect(Array.from(channel?.samples ?? [])).toEqual([
      0,
      Math.fround(0.01),
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      Math.fround(-0.025),
    ]);
  });

  it("is read back from what was written of it", () => {
    const { record } = read(written);
    expect(record).toBeDefined();
    if (record) expect(read(writeRecord(record)).record).toEqual(record);
  });

  it.each([
    ["an object", '{ "fs": 1e7, "ch1": [0, 1] }', /no record.*`fs`, `ch1`/],
    ["a list", '[{ "t": 0, "v": 1 }, { "t": 1, "v": 2 }]', /no record/],
  ])("is refused with one sentence where it is another program's JSON: %s", (_, text, says) => {
    const reading = read(text);
    expect(reading.findings).toMatchObject([{ rule: "capture-json", severity: "stop", place: { line: 1 } }]);
    expect(reading.findings[0]?.what).toMatch(says);
  });

  it.each([
    ["a comma too many", '"interval": 1e-7,', '"interval": 1e-7,,', 5, /does not belong here/],
    ["an unknown key", '"start"', '"begin"', 4, /`begin` is not known/],
    ["no interval", '"interval": 1e-7,', "", 1, /`interval` is missing/],
    ["an interval of 0", "1e-7", "0", 5, /sample interval of 0 s/],
    ["a unit that is none", '"mV"', '"zorkmid"', 7, /`zorkmid` is not known/],
    ["a role that is none", '"primaryCurrent"', '"tuba"', 7, /`tuba` is not a role/],
    ["text in the samples", "null", '"ten"', 8, /is no sample/],
    ["another format", '"coilwrightRecord": 1', '"coilwrightRecord": 9', 2, /record of format 1/],
    ["a text that is not closed", '"first light"', '"first light', 3, /not closed/],
    ["a key twice", '"start"', '"name"', 4, /second time/],
    ["one sample", '0, 10, null, "over", "under", -2.5e1', "0", 6, /1 sample/],
  ])("is refused with its place: %s", (_, from, to, line, says) => {
    const reading = read(written.replace(from, to));
    expect(reading.record).toBeUndefined();
    expect(new Set(rulesOf(reading))).toEqual(new Set(["capture-json"]));
    const [first] = reading.findings;
    expect(first?.what).toMatch(says);
    expect(first?.place?.line).toBe(line);
    expect(first?.expected).toMatch(/\w/);
  });
});
