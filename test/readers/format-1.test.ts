import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCoil } from "../../src/readers/coil-file.ts";

describe("format 1", () => {
  const file = readCoil(readFileSync(new URL("./format-1.yaml", import.meta.url), "utf8"));

  // law: SI values of the frozen file, worked out by hand, one of each kind of value
  it("stays readable", () => {
    const { coil } = file;
    expect(coil).toMatchObject({
      coilwright: 1,
      name: "Lantern",
      site: {
        air: { temperature: 293.15, pressure: 101300, humidity: 0.5 },
        ceiling: { height: 3.4 },
        wall: { radius: 2.2 },
        people: [{ at: 3.5, height: 1.75 }],
      },
      secondary: {
        former: { outerDiameter: 0.11 },
        wire: { bare: 0.000315, overall: 0.000352 },
        turns: 1100,
        length: 0.42,
        baseHeight: 0.18,
        coating: { material: "polyurethane" },
      },
      topload: [{ toroid: { outerDiameter: 0.3, tubeDiameter: 0.075, height: 0.655 } }],
      primary: {
        angle: 0,
        turns: 7,
        tap: 6.6,
        firstTurnDiameter: 0.176,
        pitch: 0.013,
        conductor: { tube: 0.008 },
        layers: { count: 1 },
        baseHeight: 0.185,
        strikeRing: { earthed: true, closed: false },
      },
      tank: {
        bank: { each: 1.5e-7, voltage: 2000, dissipation: 0.0006, series: 2, parallel: 1 },
        leads: { resistance: 0.006 },
      },
      bridge: {
        kind: "half",
        switch: {
          kind: "igbt",
          thermal: [
            [0.12, 0.001],
            [0.25, 0.02],
          ],
        },
        gate: { transformer: { turns: 11, fluxMax: 0.2 } },
      },
      supply: {
        mains: { voltage: 230, frequency: 50 },
        rectifier: "bridge",
        fuse: 6.3,
        control: {
          regulation: 0.15,
          rails: [
            { volts: 15, load: 0.18 },
            { volts: 5, load: 0.06 },
          ],
        },
      },
      feedback: { sense: "primaryCurrent", transformer: { ratio: 1000 }, overcurrent: 180 },
      interrupter: { rate: 180, limits: { duty: 0.04, rate: 1200 } },
    });
    expect(coil?.supply?.capacitors.each).toBeCloseTo(1.5e-3, 12);
    expect(coil?.feedback?.lead).toBeCloseTo(350e-9, 15);
  });

  it("has one thing worth a second look: the person stands behind the round wall of the model", () => {
    expect(file.findings.map(({ rule, severity }) => [rule, severity])).toEqual([["stands-behind-wall", "look"]]);
  });

  it("the file that the manual calls the shortest is a coil", () => {
    const manual = readFileSync(new URL("../../docs/coil-file.md", import.meta.url), "utf8");
    const [, text = ""] = /```yaml\n([\s\S]*?)```/.exec(manual) ?? [];
    expect(readCoil(text).findings).toEqual([]);
    expect(readCoil(text).coil?.secondary.turns).toBe(1100);
  });
});
