import { describe, expect, it } from "vitest";
import {
  absoluteTolerance,
  type Dimension,
  origins,
  readQuantity,
  unitSpellings,
  writeQuantity,
} from "../../src/units/index.ts";

function read(text: string, dimension: Dimension) {
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading) throw new Error(`${text}: ${reading.problem.what}`);
  return reading.quantity;
}
function refuse(text: string, dimension: Dimension) {
  const reading = readQuantity(text, { dimension });
  if ("quantity" in reading) throw new Error(`${text} was read as ${reading.quantity.value}`);
  return reading.problem;
}

describe("readQuantity", () => {
  // law: the definitions of the SI prefixes, the inch (25.4 mm), the bar, the degree and the Celsius zero
  it.each<[string, Dimension, number]>([
    ["420 mm", "length", 0.42],
    ["0.35mm", "length", 0.35e-3],
    ["1e-3 m", "length", 1e-3],
    ["3/8 in", "length", 0.375 * 0.0254],
    ["1 1/2 in", "length", 1.5 * 0.0254],
    ["4 ft", "length", 1.2192],
    ["12.5 cm", "length", 0.125],
    ["70 µm", "length", 70e-6],
    ["70 \u03bcm", "length", 70e-6],
    ["70 um", "length", 70e-6],
    ["6.8 nF", "capacitance", 6.8e-9],
    ["6.8nF", "capacitance", 6.8e-9],
    ["0.35 uH", "inductance", 0.35e-6],
    ["47 kΩ", "resistance", 47e3],
    ["47 k\u2126", "resistance", 47e3],
    ["47 kohm", "resistance", 47e3],
    ["6 mohm", "resistance", 6e-3],
    ["2 MΩ", "resistance", 2e6],
    ["2 kV", "voltage", 2000],
    ["60 A", "current", 60],
    ["1.5 kW", "power", 1500],
    ["0.6 mJ", "energy", 0.6e-3],
    ["190 nC", "charge", 190e-9],
    ["110 µs", "time", 110e-6],
    ["1.2 kHz", "frequency", 1200],
    ["20 °C", "temperature", 293.15],
    ["-5 °C", "temperature", 268.15],
    ["\u22125 °C", "temperature", 268.15],
    ["300 K", "temperature", 300],
    ["1013.25 hPa", "pressure", 101325],
    ["101.325 kPa", "pressure", 101325],
    ["1 bar", "pressure", 1e5],
    ["1013 mbar", "pressure", 101300],
    ["760 mmHg", "pressure", 101325],
    ["0.9 K/W", "thermalResistance", 0.9],
    ["0.9 °C/W", "thermalResistance", 0.9],
    ["50 %", "ratio", 0.5],
    ["0.0006", "ratio", 0.0006],
    ["30°", "angle", Math.PI / 6],
    ["30 deg", "angle", Math.PI / 6],
    ["0.5 rad", "angle", 0.5],
    ["200 mT", "fluxDensity", 0.2],
    ["40 mm²", "area", 40e-6],
    ["40 mm2", "area", 40e-6],
    ["1.2 cm²", "area", 1.2e-4],
    ["1 m²", "area", 1],
  ])("%s is a %s of %d", (text, dimension, value) => {
    expect(Math.abs(read(text, dimension).value - value)).toBeLessThanOrEqual(Math.abs(value) * 2e-7);
  });

  // law: 760 mmHg differs from the standard atmosphere by 1.5e-7 only; all others are exact to rounding
  it("is exact to rounding for prefixes", () => {
    expect(read("352 µm", "length").value).toBeCloseTo(0.000352, 15);
    expect(read("3/8 in", "length").value).toBeCloseTo(0.009525, 15);
  });

  // law: a relative tolerance scales with the value, an absolute one is in its own unit, a difference of temperature has no zero point
  it.each<[string, Dimension, number, string | undefined]>([
    ["6.8 nF ± 5 % (datasheet)", "capacitance", 0.34e-9, "datasheet"],
    ["110 mm ± 0.5 mm (measured)", "length", 0.5e-3, "measured"],
    ["110 mm +/- 0.05 cm", "length", 0.5e-3, undefined],
    ["110 mm+-1/64 in(guessed)", "length", 0.0254 / 64, "guessed"],
    ["20 °C ± 2 K", "temperature", 2, undefined],
    ["20 °C ± 2 °C", "temperature", 2, undefined],
    ["50 % ± 5 %", "ratio", 0.05, undefined],
    ["0.0006 ± 10 %", "ratio", 0.00006, undefined],
    ["0.95 ± 0.01", "ratio", 0.01, undefined],
    ["AWG 28 ± 2 % (drawn)", "length", 0.02 * 0.127e-3 * 92 ** (8 / 39), "drawn"],
  ])("%s keeps its tolerance and origin", (text, dimension, tolerance, origin) => {
    const quantity = read(text, dimension);
    expect(Math.abs((absoluteTolerance(quantity) ?? 0) / tolerance - 1)).toBeLessThan(1e-12);
    expect(quantity.origin).toBe(origin);
    expect(quantity.text).toBe(text);
  });

  // law: a suggestion is itself a text that is read
  it.each<[string, Dimension, string, string]>([
    ["6.8 uf", "capacitance", "unknown-unit", "6.8 µF"],
    ["6.8 microfarads ± 5 %", "capacitance", "unknown-unit", "6.8 µF ± 5 %"],
    ["210 khz", "frequency", "unknown-unit", "210 kHz"],
    ["2 mhz", "frequency", "unknown-unit", "2 MHz"],
    ["2 mHZ", "frequency", "unknown-unit", "2 MHz"],
    ["420 MM", "length", "unknown-unit", "420 mm"],
    ["420 mn", "length", "unknown-unit", "420 mm"],
    ['3/8"', "length", "unknown-unit", "3/8 in"],
    ["12 mil", "length", "unknown-unit", "0.012 in"],
    ["0,35 mm", "length", "decimal-comma", "0.35 mm"],
    ["1-1/2 in", "length", "unknown-unit", "1 1/2 in"],
    ["420", "length", "no-unit", "420 mm"],
    ["20 C", "temperature", "wrong-dimension", "20 °C"],
    ["20 degC", "temperature", "unknown-unit", "20 °C"],
    ["47 kilohms", "resistance", "unknown-unit", "47 kΩ"],
    ["110 mm ± 0.5", "length", "bad-tolerance", "110 mm ± 0.5 mm"],
    ["110 mm (mesured)", "length", "unknown-origin", "110 mm (measured)"],
    ["110 mm (Measured)", "length", "unknown-origin", "110 mm (measured)"],
  ])("%s as %s is refused (%s) and %s is suggested", (text, dimension, code, suggestion) => {
    const problem = refuse(text, dimension);
    expect(problem.code).toBe(code);
    expect(problem.suggestions[0]).toBe(suggestion);
    expect("quantity" in readQuantity(suggestion, { dimension })).toBe(true);
  });

  it("offers both readings of 1,000", () => {
    expect(refuse("1,000 V", "voltage").suggestions).toEqual(["1.000 V", "1000 V"]);
  });

  it.each<[string, Dimension, string]>([
    ["", "length", "empty"],
    ["   ", "length", "empty"],
    ["mm", "length", "no-number"],
    ["twelve mm", "length", "no-number"],
    ["NaN m", "length", "no-number"],
    ["Infinity m", "length", "no-number"],
    ["1e999 m", "length", "not-finite"],
    ["1/0 in", "length", "not-finite"],
    ["6.8 nF", "length", "wrong-dimension"],
    ["AWG 28", "voltage", "wrong-dimension"],
    ["AWG 99", "length", "no-number"],
    ["420 mm ± -1 mm", "length", "bad-tolerance"],
    ["420 mm ± 1 nF", "length", "bad-tolerance"],
    ["20 °C ± 5 %", "temperature", "bad-tolerance"],
    ["420 mm ±", "length", "bad-tolerance"],
    ["5 5 5 mm", "length", "unknown-unit"],
    [`1${"0".repeat(200)} m`, "length", "too-long"],
  ])("%s as %s is refused: %s", (text, dimension, code) => {
    const problem = refuse(text, dimension);
    expect(problem.code).toBe(code);
    expect(problem.what).not.toBe("");
    expect(problem.expected).toMatch(/e\.g\.|one of/);
  });

  it("says what was found and what was expected", () => {
    expect(refuse("6.8 nF", "length")).toMatchObject({
      what: "`6.8 nF` is a capacitance, not a length",
      expected: "a length, e.g. `420 mm`",
    });
  });
});

describe("writeQuantity", () => {
  // law: writing and reading again gives the value back, in every unit that can be written
  it("gives back what was read, in every unit", () => {
    const all: Dimension[] = [
      "length",
      "area",
      "time",
      "frequency",
      "inductance",
      "capacitance",
      "resistance",
      "temperature",
      "pressure",
      "angle",
    ];
    for (const dimension of all) {
      for (const unit of unitSpellings(dimension)) {
        const text = writeQuantity({
          value: 321.25,
          unit,
          tolerance: { kind: "relative", value: 0.05 },
          origin: "datasheet",
        });
        if (dimension === "temperature") continue;
        const again = read(text, dimension);
        expect(Math.abs(again.value / 321.25 - 1)).toBeLessThan(1e-11);
        expect(absoluteTolerance(again)).toBeCloseTo(321.25 * 0.05, 8);
        expect(again.origin).toBe("datasheet");
      }
    }
  });

  it("keeps the unit, the tolerance and the origin that were written", () => {
    const quantity = read("110 mm +/- 0.5mm (measured)", "length");
    expect(writeQuantity({ ...quantity, value: 0.1125 })).toBe("112.5 mm ± 0.5 mm (measured)");
    expect(writeQuantity({ ...read("20 °C ± 2 K", "temperature"), value: 295.15 })).toBe("22 °C ± 2 K");
    expect(writeQuantity({ ...read("0°", "angle"), value: Math.PI / 6 })).toBe("30°");
    expect(writeQuantity({ ...read("3/8 in", "length"), value: 0.0127 })).toBe("0.5 in");
    expect(writeQuantity({ value: 0.1 + 0.2, unit: "m" })).toBe("0.3 m");
  });

  it("stays with wire gauges where there is one, and falls back to mm", () => {
    const wire = read("AWG 28", "length");
    expect(writeQuantity(wire)).toBe("AWG 28");
    expect(writeQuantity({ ...wire, value: 0.3e-3 })).toBe("0.3 mm");
    expect(writeQuantity(read("AWG 2/0", "length"))).toBe("AWG 2/0");
  });

  it("writes every origin so that it is read again", () => {
    for (const origin of origins)
      expect(read(writeQuantity({ value: 1, unit: "V", origin }), "voltage").origin).toBe(origin);
  });

  it("refuses what cannot be written", () => {
    expect(() => writeQuantity({ value: Number.NaN, unit: "mm" })).toThrow(RangeError);
    expect(() => writeQuantity({ value: 1, unit: "furlong" })).toThrow(RangeError);
  });
});
