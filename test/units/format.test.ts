import { describe, expect, it } from "vitest";
import { formatParts, formatQuantity, formatRange } from "../../src/units/index.ts";

describe("formatQuantity", () => {
  // law: the prefix keeps the number between 1 and 1000, after rounding
  it.each<[number, string, string]>([
    [0.0288735, "H", "28.87 mH"],
    [247_983, "Hz", "248.0 kHz"],
    [999.96, "Hz", "1.000 kHz"],
    [999.94, "Hz", "999.9 Hz"],
    [46e-9, "F", "46.00 nF"],
    [0, "H", "0 H"],
    [-12.5, "A", "−12.50 A"],
    [0.42, "m", "420.0 mm"],
    [3.4, "m", "3400 mm"],
    [373.2, "m", "373.2 m"],
    [0.00007, "m", "0.07000 mm"],
    [1.4e-6, "m", "1.400 µm"],
    [0, "m", "0 mm"],
    [293.15, "K", "20.00 °C"],
    [12, "ΔK", "12.00 K"],
    [0.5, "rad", "28.65°"],
    [101325, "Pa", "1013 hPa"],
    [0.04, "%", "4.000 %"],
    [0.0943, "1", "0.09430"],
    [4e-5, "m²", "40.00 mm²"],
    [87.3, "°C", "87.30 °C"],
    [3e-9, "1", "3.000e-9"],
    [Number.NaN, "H", "–"],
  ])("%d %s is %s", (value, unit, text) => expect(formatQuantity(value, unit)).toBe(text));

  it("takes digits, inches, metres and trimming", () => {
    expect(formatQuantity(0.0288735, "H", { digits: 2 })).toBe("29 mH");
    expect(formatQuantity(0.42, "m", { trim: true })).toBe("420 mm");
    expect(formatQuantity(0.009525, "m", { lengths: "in" })).toBe("0.3750 in");
    expect(formatQuantity(6.096, "m", { lengths: "in" })).toBe("20.00 ft");
    expect(formatQuantity(0.42, "m", { lengths: "m" })).toBe("420.0 mm");
    expect(formatQuantity(42, "m", { lengths: "m", trim: true })).toBe("42 m");
    expect(formatParts(0.0288735, "H")).toEqual({ number: "28.87", unit: "mH" });
  });

  // law: what is shown differs from the value by at most half of the last digit
  it("is never further off than half a digit", () => {
    for (let i = 1; i < 400; i++) {
      const value = 10 ** (-11.9 + i * 0.05);
      const { number, unit } = formatParts(value, "V");
      const factor = { GV: 1e9, MV: 1e6, kV: 1e3, V: 1, mV: 1e-3, µV: 1e-6, nV: 1e-9, pV: 1e-12 }[unit] ?? Number.NaN;
      expect(Math.abs((Number(number) * factor) / value - 1)).toBeLessThan(5.01e-4);
      expect(Number(number)).toBeGreaterThanOrEqual(1);
      expect(Number(number)).toBeLessThan(1000);
    }
  });
});

describe("formatRange", () => {
  it("has one unit for both ends", () => {
    expect(formatRange({ low: 0.02812, high: 0.02959 }, "H")).toBe("28.1 … 29.6 mH");
    expect(formatRange({ low: 950, high: 1050 }, "Hz")).toBe("0.95 … 1.05 kHz");
    expect(formatRange({ low: 293.15, high: 303.15 }, "K")).toBe("20.0 … 30.0 °C");
    expect(formatRange({ low: 0.417, high: 0.423 }, "m", { digits: 4 })).toBe("417.0 … 423.0 mm");
  });
});
