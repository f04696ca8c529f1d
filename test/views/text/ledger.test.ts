import { describe, expect, it } from "vitest";
import { figure } from "../../../src/catalogue/index.ts";
import { ledgerText, spreadText } from "../../../src/views/text/ledger.ts";
import { handMadeBurst } from "../hand-made-burst.ts";

const figures = new Map(
  [
    figure("secondary.f1", 229915.7, { from: [], source: "distributed-resonator" }),
    figure("secondary.terminalCapacitance", 1.6565e-11, { from: [], source: "distributed-resonator" }),
    figure("topload.breakoutVoltage", 272743, { from: [], source: "peek-1929", low: 231504, high: 273128 }),
  ].map((each) => [each.id, each]),
);

describe("the ledger", () => {
  // guard, looked at
  it("sets name, number, unit, interval and id in columns", () =>
    expect(ledgerText({ figures })).toBe(`secondary
  f1, first mode           229.92 kHz              secondary.f1
  terminal capacitance     16.565 pF               secondary.terminalCapacitance

top load
  breakout voltage            273 kV    −15 +0.1 % topload.breakoutVoltage
`));

  it("shows the interval that was asked for", () => {
    const doubt = {
      id: "secondary.f1",
      value: 229915.7,
      unit: "Hz",
      low: 227000,
      high: 232800,
      model: 1,
      contributions: [],
    };
    expect(ledgerText({ figures, doubts: new Map([["secondary.f1", doubt]]) })).toContain("229.92 kHz   ±1.3 %");
  });
});

describe("the ledger of a burst", () => {
  const page = ledgerText({ figures: handMadeBurst.figures });

  // law: no line is wider than a terminal, and every id stands on the page whole
  it("keeps within its columns whatever a figure is called, and cuts no id", () => {
    for (const line of page.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
    for (const id of handMadeBurst.figures.keys()) expect(page).toContain(` ${id}\n`);
  });

  it("gives names the room that short ids leave", () =>
    expect(page).toMatch(/\n {2}peak primary current +100 A +burst\.peakPrimaryCurrent\n/));

  it("says slopes and temperatures as the bench does", () => {
    expect(page).toMatch(/1200 V\/µs/);
    expect(page).toMatch(/junction, peak +60\.0 °C +±12 K/);
  });
});

describe("spreadText", () => {
  it.each([
    [{ value: 100, low: 98, high: 102 }, "±2 %"],
    [{ value: -100, low: -103, high: -97 }, "±3 %"],
    [{ value: 100, low: 85, high: 101 }, "−15 +1 %"],
    [{ value: 0, low: -1, high: 1 }, ""],
    [{ value: 1000, low: 951, high: 1085 }, "−5 +9 %"],
    [{ value: 1, low: 1, high: 30 }, "to ×30"],
    [{ value: 60, low: 58, high: 65, unit: "°C" }, "±5 K"],
  ])("writes %o as %s", (interval, written) => expect(spreadText(interval)).toBe(written));
});
