/** SI numbers in engineering units for people: 0.0288735 H → `28.87 mH`. Every view writes its numbers through here. */

/** How lengths are shown: in mm (m from 10 m up), in m with SI prefixes, or in inches (ft from 120 in up). */
export type LengthStyle = "mm" | "m" | "in";

export interface FormatOptions {
  /** Significant digits, 1 to 15; 4 if not given. */
  readonly digits?: number;
  readonly lengths?: LengthStyle;
  /** Drop zeros at the end, for dimensions on a drawing: `420 mm` and not `420.0 mm`. */
  readonly trim?: boolean;
}

interface Scale {
  readonly factor: number;
  readonly zero?: number;
  readonly symbol: string;
}

const steps: readonly (readonly [number, string])[] = [
  [1e9, "G"],
  [1e6, "M"],
  [1e3, "k"],
  [1, ""],
  [1e-3, "m"],
  [1e-6, "µ"],
  [1e-9, "n"],
  [1e-12, "p"],
];
/** Units that take SI prefixes. Everything else (%, cent, dB(A), 1/m, K/W …) is shown as it is. */
const prefixed = new Set([
  "m",
  "s",
  "Hz",
  "H",
  "F",
  "Ω",
  "V",
  "A",
  "W",
  "J",
  "C",
  "T",
  "V/m",
  "A/m",
  "A/V",
  "Ω/m",
  "F/m",
  "H/m",
  "J/m",
  "VA",
]);
const noUnit = new Set(["", "1", "–", "-"]);
const kelvinZero = 273.15;

const lengthScales: Readonly<Record<Exclude<LengthStyle, "m">, readonly (Scale & { readonly from: number })[]>> = {
  mm: [
    { from: 10, factor: 1, symbol: "m" },
    { from: 1e-5, factor: 1e-3, symbol: "mm" },
    { from: 0, factor: 1e-6, symbol: "µm" },
  ],
  in: [
    { from: 120 * 0.0254, factor: 0.3048, symbol: "ft" },
    { from: 0, factor: 0.0254, symbol: "in" },
  ],
};

/** A number and its unit apart, for ledgers that set them in two columns. */
export interface FormattedParts {
  readonly number: string;
  readonly unit: string;
}

/**
 * Writes `value` (SI, in `unit`) with a prefix that keeps it between 1 and 1000.
 *
 * `unit` is the symbol of the figure or key: `H`, `m`, `Hz`, `A/V`, `K/W`, `1` … Temperatures in `K` are shown in °C; `Kelvin` differences have
 * the unit `ΔK` and stay K; `m²` is shown in mm²; `rad` in degrees; `Pa` in hPa; `%` takes a fraction and shows per cent. A number that is
 * not finite is shown as `–`.
 */
export function formatQuantity(value: number, unit: string, options: FormatOptions = {}): string {
  const { number, unit: shown } = formatParts(value, unit, options);
  return glue(number, shown);
}

/** As `formatQuantity`, number and unit apart. */
export function formatParts(value: number, unit: string, options: FormatOptions = {}): FormattedParts {
  if (!Number.isFinite(value)) return { number: "–", unit: "" };
  const digits = Math.min(15, Math.max(1, Math.round(options.digits ?? 4)));
  const scale = scaleOf(value, unit, { digits, lengths: options.lengths ?? "mm" });
  return {
    number: setNumber((value - (scale.zero ?? 0)) / scale.factor, digits, options.trim ?? false),
    unit: scale.symbol,
  };
}

/** An interval with one unit for both ends: `28.1 … 29.6 mH`. The larger end chooses the prefix; both ends show the same decimals. */
export function formatRange(
  { low, high }: { low: number; high: number },
  unit: string,
  options: FormatOptions = {},
): string {
  if (!Number.isFinite(low) || !Number.isFinite(high)) return "–";
  const digits = Math.min(15, Math.max(1, Math.round(options.digits ?? 3)));
  const larger = Math.abs(low) > Math.abs(high) ? low : high;
  const scale = scaleOf(larger, unit, { digits, lengths: options.lengths ?? "mm" });
  const [a, b] = [low, high].map((v) => (v - (scale.zero ?? 0)) / scale.factor) as [number, number];
  const decimals = decimalsOf(Math.max(Math.abs(a), Math.abs(b)), digits);
  return `${minus(a.toFixed(decimals))} … ${glue(minus(b.toFixed(decimals)), scale.symbol)}`;
}

function scaleOf(value: number, unit: string, { digits, lengths }: { digits: number; lengths: LengthStyle }): Scale {
  const size = Math.abs(value);
  if (noUnit.has(unit)) return { factor: 1, symbol: "" };
  switch (unit) {
    case "K":
      return { factor: 1, zero: kelvinZero, symbol: "°C" };
    case "ΔK":
      return { factor: 1, symbol: "K" };
    case "m²":
      return { factor: 1e-6, symbol: "mm²" };
    case "rad":
      return { factor: Math.PI / 180, symbol: "°" };
    case "Pa":
      return { factor: 100, symbol: "hPa" };
    case "%":
      return { factor: 0.01, symbol: "%" };
  }
  if (unit === "m" && lengths !== "m") {
    const scales = lengthScales[lengths];
    const found = scales.find((s) => size >= s.from);
    // Zero is `0 mm`, not `0 µm`.
    return size === 0 ? { factor: 1, symbol: lengths } : (found ?? { factor: 1, symbol: "m" });
  }
  if (!prefixed.has(unit) || size === 0) return { factor: 1, symbol: unit };
  for (const [i, [factor, prefix]] of steps.entries()) {
    const rounded = Number((size / factor).toPrecision(digits));
    if (rounded >= 1 || i === steps.length - 1) return { factor, symbol: prefix + unit };
  }
  return { factor: 1, symbol: unit };
}

function decimalsOf(size: number, digits: number): number {
  if (size === 0) return 0;
  const exponent = Number(size.toExponential(digits - 1).split("e")[1]);
  return Math.min(20, Math.max(0, digits - 1 - exponent));
}

function setNumber(value: number, digits: number, trim: boolean): string {
  if (value === 0) return "0";
  const size = Math.abs(value);
  if (size < 1e-6 || size >= 1e9) {
    const [mantissa = "", exponent = ""] = value.toExponential(digits - 1).split("e");
    return minus(`${trim ? dropZeros(mantissa) : mantissa}e${exponent.replace("+", "")}`);
  }
  const text = Number(value.toPrecision(digits)).toFixed(decimalsOf(size, digits));
  return minus(trim ? dropZeros(text) : text);
}

function dropZeros(text: string): string {
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

function minus(text: string): string {
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text.replace(/^-/, "\u2212");
}

function glue(number: string, unit: string): string {
  return unit === "" ? number : unit === "°" ? `${number}°` : `${number} ${unit}`;
}
