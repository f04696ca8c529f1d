/** What a header says of the converter's codes: one value for all channels, or one for each. */
import type { ConverterCodes, Decimal } from "./dialect.ts";
import { type HeaderUnit, headerUnit } from "./header-unit.ts";
import { type CodeKey, headerKey } from "./header-words.ts";
import { tokenOf } from "./token.ts";

/** A key of the header, and a text that stands where its value may. */
export interface Pair {
  readonly key: string;
  readonly value: string;
  readonly line: number;
}

interface Written {
  readonly value: number;
  readonly unit: HeaderUnit | undefined;
}

export interface HeaderCodes {
  /** Line of the increment, from 1. */
  readonly line: number;
  readonly of: Readonly<Partial<Record<CodeKey, readonly Written[]>>>;
}

const codeKeys: readonly CodeKey[] = ["increment", "origin", "reference", "offset"];
const channelPrefix = /^\s*(?:ch(?:annel)?|kanal) ?(\d+)[ :._-]+/i;

function codeKey(
  text: string,
): { key: CodeKey; channel: number | undefined; unit: HeaderUnit | undefined } | undefined {
  const channel = channelPrefix.exec(text)?.[1];
  const found = headerKey(text.replace(channelPrefix, ""));
  const key = codeKeys.find((one) => one === found?.key);
  return key === undefined
    ? undefined
    : {
        key,
        channel: channel === undefined ? undefined : Number(channel) - 1,
        unit: headerUnit(found?.unit ?? "") ?? (/^\s*v(?:olts?)? ?per\b/i.test(text) ? headerUnit("V") : undefined),
      };
}

/** Undefined where the header gives no increment. */
export function codesIn({
  cells,
  pairs,
  decimal,
}: {
  cells: readonly (readonly string[])[];
  pairs: readonly Pair[];
  decimal: Decimal;
}): HeaderCodes | undefined {
  const of: Partial<Record<CodeKey, Written[]>> = {};
  let line: number | undefined;
  const note = (key: CodeKey, values: readonly (Written | undefined)[], at: number, first = 0) => {
    if (values[0] === undefined || of[key]?.[first] !== undefined) return;
    const known = of[key] ?? [];
    of[key] = known;
    for (const [n, value] of values.entries()) if (value !== undefined) known[first + n] = value;
    if (key === "increment") line ??= at;
  };
  // A value for each channel stands in one row.
  for (const [row, texts] of cells.entries()) {
    const key = codeKey(texts[0] ?? "");
    const values = texts.slice(1).map((text) => writtenIn(text, decimal, key?.unit));
    if (key !== undefined && values.filter((value) => value !== undefined).length > 1) note(key.key, values, row + 1);
  }
  for (const pair of pairs) {
    const key = codeKey(pair.key);
    if (key !== undefined) note(key.key, [writtenIn(pair.value, decimal, key.unit)], pair.line, key.channel);
  }
  return line === undefined ? undefined : { line, of };
}

function writtenIn(text: string, decimal: Decimal, bare: HeaderUnit | undefined): Written | undefined {
  const [, digits = "", rest = ""] = /^([-+\d.,]+(?:[eE][-+]?\d+)?)\s*(\D*)$/.exec(text.trim()) ?? [];
  const token = tokenOf(digits, decimal);
  if (token.kind !== "number") return undefined;
  return { value: token.value, unit: rest === "" ? bare : headerUnit(rest.replace(/\s*\/.*$/, "")) };
}

/** A converter has no more levels than this. */
const mostLevels = 1 << 24;

/**
 * The codes of one channel.
 *
 * @param channel  counted from 0
 * @param factor   SI value of the column's unit
 * @returns  undefined where the header does not say it of this channel; `unit` where only the increment names it
 */
export function codesOf(
  { of }: HeaderCodes,
  { channel, unit }: { channel: number; unit: HeaderUnit | undefined },
): { readonly codes: ConverterCodes; readonly unit: HeaderUnit | undefined } | undefined {
  const written = (key: CodeKey) => of[key]?.[channel] ?? (of[key]?.length === 1 ? of[key][0] : undefined);
  const increment = written("increment");
  if (increment === undefined || increment.value === 0) return undefined;
  const named = unit ?? increment.unit;
  const inUnit = (one: Written) => one.value * ((one.unit?.factor ?? named?.factor ?? 1) / (named?.factor ?? 1));
  const offset = written("offset");
  // A whole number without a unit is a level of the converter, anything else is in the unit of the samples.
  const isLevel =
    offset !== undefined &&
    offset.unit === undefined &&
    Number.isInteger(offset.value) &&
    Math.abs(offset.value) < mostLevels;
  const origin = written("origin") ?? (isLevel ? undefined : offset);
  const reference = written("reference") ?? (isLevel ? offset : undefined);
  return {
    unit: named,
    codes: {
      increment: inUnit(increment),
      origin: origin === undefined ? 0 : inUnit(origin),
      reference: reference?.value ?? 0,
    },
  };
}
