import { describe, expect, it } from "vitest";
import { diameterOfGauge, gaugeOfDiameter, readGauge, writeGauge } from "../../src/units/index.ts";
import reference from "../reference/wire-gauge.json" with { type: "json" };

describe("diameterOfGauge", () => {
  // independent: the closed form of ASTM B258 at 30 digits (test/reference/wire-gauge.json)
  it.each(reference.closedForm)("gauge $gauge", ({ gauge, diameter }) => {
    expect(Math.abs(diameterOfGauge(gauge) / diameter - 1)).toBeLessThan(1e-12);
  });
  // published: a gauge table after the Standard Handbook for Electrical Engineers, 14th ed. (three figures, so 0.3 %)
  it.each(reference.published)("gauge $gauge as tabulated", ({ gauge, diameter }) => {
    expect(Math.abs(diameterOfGauge(gauge) / diameter - 1)).toBeLessThan(3e-3);
  });
});

describe("gauges in text", () => {
  it.each([
    ["AWG 28", 28],
    ["awg28", 28],
    ["28 AWG", 28],
    ["AWG #10", 10],
    ["AWG 2/0", -1],
    ["AWG 0000", -3],
    ["AWG 0", 0],
  ] as const)("%s is %d", (text, gauge) => {
    expect(readGauge(text)).toBe(gauge);
    expect(readGauge(writeGauge(gauge))).toBe(gauge);
  });
  it.each(["AWG", "AWG 99", "28", "AWG 5/0", "SWG 28", "AWG 28.5"])("%s is none", (text) =>
    expect(readGauge(text)).toBeUndefined(),
  );
  // law: the inverse
  it("finds the gauge of a diameter, and none between two gauges", () => {
    for (let gauge = -3; gauge <= 56; gauge++) expect(gaugeOfDiameter(diameterOfGauge(gauge))).toBe(gauge);
    expect(gaugeOfDiameter(0.3e-3)).toBeUndefined();
    expect(gaugeOfDiameter(0)).toBeUndefined();
  });
});
