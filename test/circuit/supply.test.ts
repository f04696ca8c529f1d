import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { controlHeadroom } from "../../src/circuit/control-supply.ts";
import { inrush } from "../../src/circuit/inrush.ts";
import { capacitorEnergy, dischargeTime, mainsPeak } from "../../src/circuit/mains.ts";
import { bridgeRipple, doublerRipple, type RectifierLoad } from "../../src/circuit/rectifier.ts";

const seed = 20260105;
type Inputs = Readonly<Record<string, number>>;
interface Entry {
  readonly quantity: string;
  readonly inputs: Inputs;
  readonly value: number;
  readonly minimum: number;
  readonly maximum: number;
  readonly mean: number;
  readonly doublerIdeal: number;
}
const { entries } = JSON.parse(readFileSync(new URL("../reference/rectifiers.json", import.meta.url), "utf8")) as {
  readonly entries: readonly Entry[];
};
const of = (quantity: string): readonly Entry[] => entries.filter((entry) => entry.quantity === quantity);
const loadOf = ({ current, resistance }: Inputs): RectifierLoad =>
  resistance === undefined ? { current: current! } : { resistance };

describe("mains to bus", () => {
  // independent: mpmath, 30 digits (test/reference/rectifiers.json)
  test.each(of("mainsPeak"))("the peak of $inputs.rms V", ({ inputs, value, doublerIdeal }) => {
    expect(mainsPeak(inputs["rms"]!) / value).toBeCloseTo(1, 12);
    expect((2 * mainsPeak(inputs["rms"]!)) / doublerIdeal).toBeCloseTo(1, 12);
  });

  test.each(of("bus.storedEnergy"))(
    "the energy in $inputs.capacitance F at $inputs.rms V + 10 %",
    ({ inputs, value }) => {
      const voltage = (1 + inputs["tolerance"]!) * mainsPeak(inputs["rms"]!);
      expect(capacitorEnergy({ capacitance: inputs["capacitance"]!, voltage }) / value).toBeCloseTo(1, 10);
    },
  );

  test.each(of("bleeder.time"))("the time from $inputs.from V to $inputs.to V", ({ inputs, value }) => {
    const { from, to, capacitance, resistance } = inputs as Record<
      "from" | "to" | "capacitance" | "resistance",
      number
    >;
    expect(dischargeTime({ from, to, capacitance, resistance }) / value).toBeCloseTo(1, 10);
  });

  test("takes no time below the end, and for ever without a resistor", () => {
    expect(dischargeTime({ from: 50, to: 60, capacitance: 1e-3, resistance: 1e4 })).toBe(0);
    expect(dischargeTime({ from: 300, to: 60, capacitance: 1e-3, resistance: undefined })).toBe(
      Number.POSITIVE_INFINITY,
    );
    expect(() => dischargeTime({ from: 300, to: 0, capacitance: 1e-3, resistance: 1e4 })).toThrow("positive end");
    expect(() => dischargeTime({ from: 300, to: 60, capacitance: 1e-3, resistance: 0 })).toThrow("positive resistance");
  });
});

describe("bridgeRipple", () => {
  // independent: roots by mpmath, checked by event integration (test/reference/rectifiers.json)
  test.each(of("bridge.ripple"))("$inputs", ({ inputs, value, minimum, mean }) => {
    const { rms, frequency, capacitance } = inputs as Record<"rms" | "frequency" | "capacitance", number>;
    const ripple = bridgeRipple({ source: { rms, frequency }, capacitance, load: loadOf(inputs) });
    expect(ripple.ripple / value).toBeCloseTo(1, 9);
    expect(ripple.minimum / minimum).toBeCloseTo(1, 10);
    expect(ripple.mean / mean).toBeCloseTo(1, 10);
  });

  test("is below the rule of thumb I/(2fC) and nears it as the capacitor grows", () => {
    // law: the capacitor falls for less than a half-cycle
    const source = { rms: 230, frequency: 50 };
    const share = (capacitance: number): number =>
      bridgeRipple({ source, capacitance, load: { current: 1 } }).ripple / (1 / (100 * capacitance));
    fc.assert(
      fc.property(fc.double({ min: -4.3, max: -1, noNaN: true }), (exponent) => {
        expect(share(10 ** exponent)).toBeLessThan(1);
      }),
      { seed, numRuns: 100 },
    );
    expect(share(10)).toBeGreaterThan(0.999);
  });

  test("vanishes without a load, and follows the source all the way with a capacitor that holds nothing", () => {
    // exact limits: a peak rectifier; a rectified sine of mean 2/π
    const source = { rms: 230, frequency: 50 };
    expect(bridgeRipple({ source, capacitance: 1e-3, load: { current: 0 } }).ripple).toBeCloseTo(0, 8);
    const bare = bridgeRipple({ source, capacitance: 1e-12, load: { current: 1 } });
    expect(bare.minimum).toBeCloseTo(0, 5);
    expect(bare.mean / bare.maximum).toBeCloseTo(2 / Math.PI, 6);
  });

  test("refuses what is no supply", () => {
    expect(() => bridgeRipple({ source: { rms: 0, frequency: 50 }, capacitance: 1e-3, load: { current: 1 } })).toThrow(
      "positive",
    );
    expect(() =>
      bridgeRipple({ source: { rms: 230, frequency: 50 }, capacitance: 1e-3, load: { resistance: 0 } }),
    ).toThrow("load");
  });
});

describe("doublerRipple", () => {
  // independent: piecewise closed form (test/reference/rectifiers.json)
  test.each(of("doubler.ripple"))("$inputs", ({ inputs, value, minimum, maximum, mean }) => {
    const { rms, frequency, capacitanceEach, current } = inputs as Record<
      "rms" | "frequency" | "capacitanceEach" | "current",
      number
    >;
    const ripple = doublerRipple({ source: { rms, frequency }, capacitanceEach, current });
    expect(ripple.ripple / value).toBeCloseTo(1, 7);
    expect(ripple.minimum / minimum).toBeCloseTo(1, 8);
    expect(ripple.maximum / maximum).toBeCloseTo(1, 8);
    expect(ripple.mean / mean).toBeCloseTo(1, 7);
  });

  test("refuses a current that empties a capacitor within a cycle", () => {
    expect(() => doublerRipple({ source: { rms: 120, frequency: 60 }, capacitanceEach: 1e-5, current: 5 })).toThrow(
      "empties",
    );
  });
});

describe("inrush", () => {
  test("is that of the example", () => {
    // independent: formula evaluated elsewhere (test/reference/parts.json, "inrush example": 34.076 A, 9.1443 A²s)
    const at = inrush({ mains: 230, resistance: 10.5, capacitance: 1.5e-3 });
    expect(at.peak).toBeCloseTo(34.076, 3);
    // The example rounds the peak to 357.8 V.
    expect(at.squareTime).toBeCloseTo(9.1443, 3);
    // law: the charge of an empty capacitor heats the resistor as much as it fills the capacitor
    expect(at.squareTime * 10.5).toBeCloseTo(at.heat, 9);
  });

  test("agrees with the integral of its exponential", () => {
    // independent: trapezium rule on i = (V/R)·e^(−t/RC) over twenty time constants
    const [resistance, capacitance] = [5, 1e-3];
    const { squareTime } = inrush({ mains: 120, resistance, capacitance });
    const step = (resistance * capacitance) / 2000;
    let sum = 0;
    for (let n = 0; n < 40_000; n++) {
      const i = ((1.1 * mainsPeak(120)) / resistance) * Math.exp((-n * step) / (resistance * capacitance));
      sum += i * i * step * (n === 0 ? 0.5 : 1);
    }
    expect(squareTime / sum).toBeCloseTo(1, 6);
  });
});

describe("controlHeadroom", () => {
  const control = {
    transformer: 12,
    current: 1,
    regulation: 0.15,
    reservoir: 2.2e-3,
    rails: [
      { volts: 9, dropout: 2, load: 0.18 },
      { volts: 5, dropout: 2, load: 0.06 },
    ],
  };

  test("is trough minus rail minus dropout, with all rails drawing at once", () => {
    // law: by hand, 0.9·12·(1 + 0.15·0.76) = 12.03 V rms, 17.01 V peak less 1.6 V, less a ripple below 0.24/(100·2.2 mF) = 1.09 V
    const { trough, load, headroom } = controlHeadroom({ control, frequency: 50 });
    expect(load).toBeCloseTo(0.24, 12);
    const peak = 0.9 * 12 * (1 + 0.15 * 0.76) * Math.SQRT2 - 1.6;
    expect(trough).toBeLessThan(peak);
    expect(trough).toBeGreaterThan(peak - 0.24 / (100 * 2.2e-3));
    expect(headroom).toEqual([expect.closeTo(trough - 11, 12), expect.closeTo(trough - 7, 12)]);
  });

  test("falls when a rail draws more, and is below zero where the transformer is too low", () => {
    const heavy = { ...control, rails: [{ volts: 9, dropout: 2, load: 0.9 }] };
    expect(controlHeadroom({ control: heavy, frequency: 50 }).trough).toBeLessThan(
      controlHeadroom({ control, frequency: 50 }).trough,
    );
    const low = controlHeadroom({ control: { ...control, transformer: 1 }, frequency: 50 });
    expect(low).toMatchObject({ trough: 0, headroom: [-11, -7] });
  });
});
