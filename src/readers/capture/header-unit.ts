/** Units as instruments write them in a header: `(V)`, `[ms]`, `Volt`, `CH1 in mV`, `MSa/s`. */
import type { Dimension } from "../../units/dimension.ts";
import { dimensions } from "../../units/dimension.ts";
import { findUnit, nearestUnit } from "../../units/unit.ts";
import { timeWords } from "./header-words.ts";

export interface HeaderUnit {
  /** Without brackets. */
  readonly written: string;
  /** SI unit, `1` for counts and ratios. */
  readonly unit: string;
  readonly factor: number;
  readonly dimension: Dimension;
}

/** What a channel can show, in the order in which a spelling is looked up. */
const kinds: readonly Dimension[] = ["time", "voltage", "current", "frequency", "power", "energy", "ratio"];
const brackets = /^[([{<]\s*(.*?)\s*[)\]}>]$/;
/** Words and other alphabets, in lower case. */
const spellings: Readonly<Record<string, string>> = {
  sec: "s",
  secs: "s",
  second: "s",
  seconds: "s",
  sekunde: "s",
  sekunden: "s",
  msec: "ms",
  millisecond: "ms",
  milliseconds: "ms",
  usec: "µs",
  µsec: "µs",
  microsecond: "µs",
  microseconds: "µs",
  nsec: "ns",
  nanosecond: "ns",
  nanoseconds: "ns",
  с: "s",
  сек: "s",
  мс: "ms",
  мкс: "µs",
  нс: "ns",
  в: "V",
  мв: "mV",
  кв: "kV",
  а: "A",
  ма: "mA",
  ка: "kA",
  гц: "Hz",
  кгц: "kHz",
  мгц: "MHz",
  秒: "s",
  毫秒: "ms",
  微秒: "µs",
  マイクロ秒: "µs",
  ミリ秒: "ms",
  伏: "V",
  伏特: "V",
  毫伏: "mV",
  安: "A",
  安培: "A",
};

/** The unit that a header text names, or undefined. Words and other letter cases are understood; `S` alone is taken as seconds. */
export function headerUnit(text: string): HeaderUnit | undefined {
  const written = (brackets.exec(text.trim())?.[1] ?? text.trim()).replace("\u03bc", "µ");
  if (written === "" || written.length > 24) return undefined;
  const lower = written.toLowerCase();
  // Siemens are not sampled: `S` and `uS` are seconds.
  const spelling = spellings[lower] ?? written.replace(/^([munpµ]?)S$/, "$1s");
  const exact = findUnit(spelling);
  if (exact !== undefined && kinds.includes(exact.dimension)) return asHeader(written, exact);
  if (exact !== undefined) return undefined;
  for (const dimension of kinds) {
    const near = nearestUnit(spelling, dimension);
    // One slip of a letter is a guess too many in a header: only another case or a word may stand for the unit.
    if (near === undefined || !(near.toLowerCase() === lower || /[a-z]{4}/i.test(written))) continue;
    const unit = findUnit(near);
    if (unit !== undefined) return asHeader(written, unit);
  }
  return undefined;
}

function asHeader(
  written: string,
  { dimension, factor, divisor }: { dimension: Dimension; factor: number; divisor: number },
): HeaderUnit {
  return { written, unit: dimensions[dimension].si, factor: divisor > 1 ? 1 / divisor : factor, dimension };
}

/** `CH1 (mV)` → the name `CH1` and the unit; without a unit the whole text is the name. */
export function nameAndUnit(text: string): { name: string; unit: HeaderUnit | undefined; unknown: string } {
  const whole = text.trim();
  const match =
    /^(.*?)\s*[([{]\s*([^()[\]{}]{1,24})\s*[)\]}]\s*$/.exec(whole) ??
    /^(.*\S)\s+in\s+(\S{1,16})$/.exec(whole) ??
    /^([^/]*[^/\s])\s*\/\s*(\S{1,4})$/.exec(whole) ??
    /^(.*\S)\s*,\s*(\S{1,6})$/.exec(whole) ??
    /^(.*[^_])_([A-Za-zµ]{2,3})$/.exec(whole) ??
    // Behind anything else a lone letter may be the name of a channel.
    /^(.*(?:time|volt(?:age)?|current|energy|power).*)_([A-Za-z])$/i.exec(whole);
  if (match !== null) {
    const unit = headerUnit(match[2] ?? "");
    if (unit !== undefined) return { name: match[1]?.trim() ?? "", unit, unknown: "" };
    if (/[)\]}]\s*$/.test(whole) && match[1] !== "")
      return { name: match[1] ?? "", unit: undefined, unknown: match[2] ?? "" };
  }
  return unitBehind(whole) ?? { name: whole, unit: undefined, unknown: "" };
}

/** `time ns`, `CT mV`: only what is written as units are, for a last word may be a part of the name; a lone `A` or `C` is a channel's. */
function unitBehind(whole: string): { name: string; unit: HeaderUnit; unknown: "" } | undefined {
  const [, name = "", last = ""] = /^(.*\S)\s+(\S{1,12})$/.exec(whole) ?? [];
  if (name === "" || (last.length === 1 && last !== "V" && !timeWords.test(name))) return undefined;
  if (findUnit(last.replace(/[uμ](?=[sVA]$)/, "µ")) === undefined && !Object.hasOwn(spellings, last.toLowerCase()))
    return undefined;
  const unit = headerUnit(last);
  return unit === undefined ? undefined : { name, unit, unknown: "" };
}

/** A time or a rate as a header gives it: `4e-9`, `0.4 us`, `250 MSa/s`. Bare numbers are in `bare` [s or Hz]. */
export function headerQuantity(
  text: string,
  { wanted, decimal, bare = 1 }: { wanted: "time" | "frequency"; decimal: "." | ","; bare?: number },
): number | undefined {
  const match = /^([+-]?[\d.,]+(?:[eE][+-]?\d+)?)\s*(.*)$/.exec(text.trim());
  if (match === null) return undefined;
  const [, digits = "", unitText = ""] = match;
  const number = Number(decimal === "," ? digits.replace(",", ".") : digits);
  if (!Number.isFinite(number)) return undefined;
  if (unitText === "") return number * bare;
  const rate = /^([kKMG]?)(?:(?:S|Sa|Samples?|Pts?|Points?)\/s(?:ec(?:ond)?)?|SPS)$/i.exec(unitText);
  if (rate !== null) {
    if (wanted !== "frequency") return undefined;
    const steps: Readonly<Record<string, number>> = { "": 1, k: 1e3, K: 1e3, M: 1e6, m: 1e6, G: 1e9, g: 1e9 };
    return number * (steps[rate[1] ?? ""] ?? Number.NaN);
  }
  const unit = headerUnit(unitText);
  return unit?.dimension === wanted ? number * unit.factor : undefined;
}
