import { describe, expect, it } from "vitest";
import { comparedStore, storedIn, waitingTime } from "../../src/safety/index.ts";
import { numberOf, numbersOf } from "./reference.ts";

const over = (parts: { capacitance: number; voltage: number }) =>
  comparedStore(parts)
    .filter((line) => line.over)
    .map(({ source, says }) => `${source}: ${says.split(" ").slice(0, 2).join(" ")}`);

describe("storedIn", () => {
  // independent: ½C(1.1·√2·V)²: 1500 µF at 230 V, mains 10 % high
  it("of the bus of 1500 µF is 96 J, and of a top load of 20 pF at 200 kV 4 µC and 0.4 J", () => {
    const bus = storedIn({ capacitance: 1500e-6, voltage: 1.1 * Math.SQRT2 * 230 });
    expect(bus.energy).toBeCloseTo(numberOf("safety", "bus energy at mains peak +10 %"), 2);
    const [charge, energy] = numbersOf("safety", "top load charge and energy");
    const top = storedIn({ capacitance: 20e-12, voltage: 200e3 });
    expect(1e6 * top.charge).toBeCloseTo(charge!, 9);
    expect(top.energy).toBeCloseTo(energy!, 9);
  });
});

describe("waitingTime", () => {
  // independent: RC·ln(V0/60 V), the same bus with 47 kΩ
  it("of that bus through 47 kΩ is 126 s, and without a bleeder there is none", () => {
    const parts = { voltage: 1.1 * Math.SQRT2 * 230, capacitance: 1500e-6 };
    expect(waitingTime({ ...parts, bleeder: 47e3 })).toBeCloseTo(numberOf("safety", "bus discharge time to 60 V"), 1);
    expect(waitingTime({ ...parts, bleeder: undefined })).toBeUndefined();
    expect(waitingTime({ voltage: 59, capacitance: 1e-3, bleeder: 1e3 })).toBe(0);
  });
});

describe("comparedStore", () => {
  // published: IEC 60335-1 cl. 8.1.4, as quoted: 0.1 µF to 450 V, 45 µC to 15 kV, 350 mJ above
  it("holds against the lines of IEC 60335-1 on both sides of each", () => {
    const farads = 1e-6 * numberOf("safety", "capacitance behind an accessible part");
    const coulombs = 1e-6 * numberOf("safety", "charge behind an accessible part");
    const joules = 1e-3 * numberOf("safety", "energy behind an accessible part");
    const line = (parts: { capacitance: number; voltage: number }) =>
      over(parts).filter((one) => one.startsWith("iec-60335"));
    expect(line({ capacitance: 0.99 * farads, voltage: 449 })).toEqual([]);
    expect(line({ capacitance: 1.01 * farads, voltage: 449 })).toEqual(["iec-60335-1-accessible: 0.1 µF"]);
    expect(line({ capacitance: (0.99 * coulombs) / 5e3, voltage: 5e3 })).toEqual([]);
    expect(line({ capacitance: (1.01 * coulombs) / 5e3, voltage: 5e3 })).toEqual(["iec-60335-1-accessible: 45 µC"]);
    expect(line({ capacitance: (2 * 0.99 * joules) / 2e5 ** 2, voltage: 2e5 })).toEqual([]);
    expect(line({ capacitance: (2 * 1.01 * joules) / 2e5 ** 2, voltage: 2e5 })).toEqual([
      "iec-60335-1-accessible: 350 mJ",
    ]);
    expect(line({ capacitance: 1, voltage: 42 })).toEqual([]);
  });

  // published: laboratory safety manual after US DOE, table 2.2.13: 100 V and 10 J; from memory (DOE-HDBK-1092 app. D): above 400 V 1 J and 0.25 J
  it("holds against the ladder of US laboratories", () => {
    const of = (energy: number, voltage: number) =>
      over({ capacitance: (2 * energy) / voltage ** 2, voltage }).filter((one) => one.startsWith("doe"));
    expect(of(10.1, 300)).toEqual(["doe-capacitor-hazard: 10 J"]);
    expect(of(9.9, 300)).toEqual([]);
    expect(of(1.01, 500)).toEqual(["doe-capacitor-memory: 1 J", "doe-capacitor-memory: 0.25 J"]);
    expect(of(0.26, 500)).toEqual(["doe-capacitor-memory: 0.25 J"]);
    expect(of(101, 50)).toEqual(["doe-capacitor-memory: 100 J"]);
  });

  // published, from memory: IEC 61010-1 cl. 6.3.1 and IEC 62368-1 table 4: 60 V d.c.
  it("holds against 60 V", () => {
    const line = numbersOf("safety", "ES1 limit")[0]!;
    expect(over({ capacitance: 1e-9, voltage: line })).toEqual([]);
    expect(over({ capacitance: 1e-9, voltage: line + 1 })).toEqual(["low-voltage-dc: 60 V"]);
  });
});
