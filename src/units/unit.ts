/** The units that may be written, with their SI prefixes: symbol → dimension, factor and zero point. */
import type { Dimension } from "./dimension.ts";

export interface Unit {
  /** Canonical spelling, e.g. `µF`, `mm²`. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** SI value of one of this unit. */
  readonly factor: number;
  /** The same as a divisor where that is a whole number (1000 for mm), else 1 with the factor: dividing rounds once, and 13 mm is 0.013 m. */
  readonly divisor: number;
  /** SI value at the reading 0; not 0 only for °C. */
  readonly zero: number;
}

/** SI value of `number` in `unit`, without the unit's zero point: for differences and tolerances. */
export function toSiDifference(number: number, unit: Pick<Unit, "factor" | "divisor">): number {
  return unit.divisor > 1 ? number / unit.divisor : number * unit.factor;
}

/** What `value` is in `unit`, without the unit's zero point. */
export function fromSiDifference(value: number, unit: Pick<Unit, "factor" | "divisor">): number {
  return unit.divisor > 1 ? value * unit.divisor : value / unit.factor;
}

const prefixFactors = {
  p: 1e-12,
  n: 1e-9,
  µ: 1e-6,
  m: 1e-3,
  c: 1e-2,
  d: 1e-1,
  h: 1e2,
  k: 1e3,
  M: 1e6,
  G: 1e9,
} as const;
type Prefix = keyof typeof prefixFactors;

interface Stem {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly factor?: number;
  readonly zero?: number;
  /** SI prefixes that may stand before it, as letters. */
  readonly prefixes?: string;
  /** 2 for areas: the prefix counts twice. */
  readonly power?: number;
  readonly alsoWritten?: readonly string[];
}

const usualPrefixes = "pnµmkMG";
const inch = 0.0254;

const stems: readonly Stem[] = [
  { symbol: "m", dimension: "length", prefixes: "nµmcdk" },
  { symbol: "in", dimension: "length", factor: inch },
  { symbol: "ft", dimension: "length", factor: 12 * inch },
  { symbol: "m²", dimension: "area", prefixes: "µmcd", power: 2, alsoWritten: ["m2", "m^2"] },
  { symbol: "s", dimension: "time", prefixes: "pnµm" },
  { symbol: "Hz", dimension: "frequency", prefixes: "mkMG" },
  { symbol: "H", dimension: "inductance", prefixes: "pnµm" },
  { symbol: "F", dimension: "capacitance", prefixes: "pnµm" },
  { symbol: "Ω", dimension: "resistance", prefixes: "nµmkMG", alsoWritten: ["\u2126", "ohm", "Ohm"] },
  { symbol: "V", dimension: "voltage", prefixes: usualPrefixes },
  { symbol: "A", dimension: "current", prefixes: usualPrefixes },
  { symbol: "W", dimension: "power", prefixes: usualPrefixes },
  { symbol: "J", dimension: "energy", prefixes: usualPrefixes },
  { symbol: "C", dimension: "charge", prefixes: "pnµm" },
  { symbol: "K", dimension: "temperature" },
  { symbol: "°C", dimension: "temperature", zero: 273.15, alsoWritten: ["\u2103"] },
  { symbol: "Pa", dimension: "pressure", prefixes: "hkM" },
  { symbol: "bar", dimension: "pressure", factor: 1e5, prefixes: "m" },
  // The conventional millimetre of mercury: 13 595.1 kg/m³ · 9.806 65 m/s² · 1 mm.
  { symbol: "mmHg", dimension: "pressure", factor: 133.322387415 },
  { symbol: "K/W", dimension: "thermalResistance", prefixes: "m", alsoWritten: ["°C/W"] },
  { symbol: "T", dimension: "fluxDensity", prefixes: "nµm" },
  { symbol: "°", dimension: "angle", factor: Math.PI / 180, alsoWritten: ["deg"] },
  { symbol: "rad", dimension: "angle", prefixes: "m" },
  { symbol: "%", dimension: "ratio", factor: 0.01 },
];

/** Both code points of micro, and the letter that keyboards have. */
const spellingsOfPrefix = (prefix: string): readonly string[] =>
  prefix === "µ" ? ["\u00b5", "\u03bc", "u"] : [prefix];

const units = new Map<string, Unit>();
for (const stem of stems) {
  const spellings = [stem.symbol, ...(stem.alsoWritten ?? [])];
  for (const prefix of ["", ...(stem.prefixes ?? "")]) {
    const step = prefix === "" ? 1 : prefixFactors[prefix as Prefix];
    const factor = (stem.factor ?? 1) * step ** (stem.power ?? 1);
    const inverse = Math.round(1 / factor);
    const unit: Unit = {
      symbol: prefix + stem.symbol,
      dimension: stem.dimension,
      factor,
      divisor: inverse > 1 && Math.abs(inverse * factor - 1) < 1e-12 ? inverse : 1,
      zero: stem.zero ?? 0,
    };
    for (const spelling of spellings) for (const p of spellingsOfPrefix(prefix)) units.set(p + spelling, unit);
  }
}

/** The unit written `symbol`, or undefined. Exact in case: `mH` is a millihenry, `MH` is nothing. */
export function findUnit(symbol: string): Unit | undefined {
  return units.get(symbol);
}

/** Every spelling that is understood for `dimension`, for suggestions and for editors. */
export function unitSpellings(dimension: Dimension): readonly string[] {
  return [...units].filter(([, unit]) => unit.dimension === dimension).map(([spelling]) => spelling);
}

/** Words and habits that are not units here, and what was meant. */
const habits: readonly (readonly [RegExp, string])[] = [
  [/^(["”″]|inch(es)?|in\.|zoll)$/i, "in"],
  [/^(['’′]|foot|feet|ft\.)$/i, "ft"],
  [/^(mil|mils|thou)$/i, "in"],
  [/^(deg(rees?)?\s?c|celsius|centigrade|c|°\s+c|º\s?c|° ?k)$/i, "°C"],
  [/^(degrees?|º)$/i, "°"],
  [/^(percent|per cent|pct)$/i, "%"],
  [/^sec(ond)?s?$/i, "s"],
  [/^(millimet(er|re)s?)$/i, "mm"],
  [/^(centimet(er|re)s?)$/i, "cm"],
  [/^(met(er|re)s?)$/i, "m"],
  [/^(torr)$/i, "mmHg"],
];
const unitWords: readonly (readonly [RegExp, string])[] = [
  [/(?:farads?|fd)$/i, "F"],
  [/henr(?:y|ys|ies)$/i, "H"],
  [/hertz$/i, "Hz"],
  [/ohms?$/i, "Ω"],
  [/volts?$/i, "V"],
  [/(?:amperes?|amps?)$/i, "A"],
  [/watts?$/i, "W"],
  [/joules?$/i, "J"],
  [/coulombs?$/i, "C"],
  [/tesla$/i, "T"],
];
const prefixWords: Readonly<Record<string, string>> = {
  pico: "p",
  nano: "n",
  micro: "µ",
  milli: "m",
  kilo: "k",
  kil: "k",
  meg: "M",
  mega: "M",
  giga: "G",
};

/**
 * The unit of `dimension` that somebody who wrote `symbol` probably meant, or undefined.
 * Another case first (`uf` → `µF`), then words (`microfarads` → `µF`), then one slip of a letter. Never used to read a file: only to suggest.
 */
export function nearestUnit(symbol: string, dimension: Dimension): string | undefined {
  for (const [pattern, meant] of habits) {
    if (pattern.test(symbol) && units.get(meant)?.dimension === dimension) return meant;
  }
  for (const [pattern, base] of unitWords) {
    const match = pattern.exec(symbol);
    if (match === null || units.get(base)?.dimension !== dimension) continue;
    const before = symbol.slice(0, match.index).trim();
    const prefix = prefixWords[before.toLowerCase()] ?? before;
    const found = units.get(prefix + base) ?? units.get(prefix.toLowerCase() + base);
    if (found !== undefined) return found.symbol;
  }
  const spellings = unitSpellings(dimension);
  const folded = symbol.toLowerCase();
  const otherCase = spellings.filter((s) => s.toLowerCase() === folded);
  // Of `mhz` both mHz and MHz are one case away; nobody writes a millihertz here.
  const bigger = otherCase.find((s) => s.startsWith("M"));
  const byCase = dimension === "frequency" ? (bigger ?? otherCase[0]) : otherCase[0];
  if (byCase !== undefined) return units.get(byCase)?.symbol;
  const bySlip =
    symbol.length > 1 ? spellings.find((s) => s.length > 1 && isOneSlipApart(s.toLowerCase(), folded)) : undefined;
  return bySlip === undefined ? undefined : units.get(bySlip)?.symbol;
}

/** True where one letter was changed, left out or put in. */
function isOneSlipApart(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && start < b.length && a[start] === b[start]) start++;
  let end = 0;
  while (end < a.length - start && end < b.length - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return Math.max(a.length, b.length) - start - end <= 1;
}
