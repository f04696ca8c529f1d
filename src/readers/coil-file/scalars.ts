/** One value by its key: from its text to a value, or to what is wrong with it. */
import {
  type ChoiceKey,
  type CountKey,
  type FlagKey,
  isQuantityKey,
  type Key,
  type NumberKey,
  type QuantityKey,
  type TextKey,
} from "../../catalogue/keys.ts";
import { closestOf } from "../../units/closest.ts";
import { dimensions } from "../../units/dimension.ts";
import { numberOf, writeNumber } from "../../units/number.ts";
import { type Quantity, readQuantity } from "../../units/quantity.ts";
import { clip, expectationOf, limitsOf, setTo } from "./expectation.ts";
import type { Refusal } from "./notes.ts";

export type ScalarKey = QuantityKey | CountKey | NumberKey | TextKey | ChoiceKey | FlagKey;
export type ScalarReading =
  | { readonly value: number | string | boolean; readonly quantity?: Quantity }
  | { readonly refusal: Refusal };

export function isScalarKey(key: Key): key is ScalarKey {
  return isQuantityKey(key) || ["count", "number", "text", "choice", "flag"].includes(key.kind);
}

/** Reads `text` as `key` wants it. `path` goes into the edits of the remedies. */
export function readScalar(text: string, { key, path }: { key: ScalarKey; path: string }): ScalarReading {
  if (isQuantityKey(key)) return quantityFrom(text, key, path);
  switch (key.kind) {
    case "count":
    case "number":
      return numberFrom(text, key, path);
    case "text":
      return textFrom(text, key);
    case "choice":
      return Object.hasOwn(key.options, text)
        ? { value: text }
        : { refusal: notAChoice(text, { key, words: Object.keys(key.options), path }) };
    case "flag":
      return flagFrom(text, key, path);
  }
}

function quantityFrom(text: string, key: QuantityKey, path: string): ScalarReading {
  const reading = readQuantity(text, {
    dimension: key.dimension,
    ...(key.example === undefined ? {} : { example: key.example }),
  });
  if ("problem" in reading) {
    const { code, what, expected, suggestions } = reading.problem;
    return {
      refusal: { rule: code, what, expected, remedies: suggestions.map((suggestion) => setTo(path, suggestion)) },
    };
  }
  const { quantity } = reading;
  const { from, to } = limitsOf(key);
  if (quantity.value >= from.value && quantity.value <= to.value) return { value: quantity.value, quantity };
  const [side, limit] = quantity.value < from.value ? ["under", from] : ["over", to];
  return {
    refusal: {
      rule: "out-of-range",
      what: `\`${clip(quantity.text)}\` is ${side} the limit of \`${limit.text}\``,
      expected: `${dimensions[key.dimension].called} from \`${from.text}\` to \`${to.text}\``,
    },
  };
}

function numberFrom(text: string, key: CountKey | NumberKey, path: string): ScalarReading {
  const rule = key.kind === "count" ? "not-a-count" : "not-a-number";
  const expected = expectationOf(key);
  const value = numberOf(text);
  if (value === undefined) {
    const meant = meantNumber(text);
    const remedies =
      meant === undefined || (key.kind === "count" && !Number.isInteger(meant))
        ? []
        : [setTo(path, writeNumber(meant))];
    return { refusal: { rule, what: `\`${clip(text)}\` is not a bare number`, expected, remedies } };
  }
  if (key.kind === "count" && !Number.isInteger(value)) {
    return {
      refusal: {
        rule,
        what: `\`${clip(text)}\` is not a whole number`,
        expected,
        remedies: [setTo(path, String(Math.round(value)))],
      },
    };
  }
  if (value >= key.from && value <= key.to) return { value };
  const [side, limit] = value < key.from ? ["under", key.from] : ["over", key.to];
  return { refusal: { rule: "out-of-range", what: `${clip(text)} is ${side} the limit of ${limit}`, expected } };
}

/** `1,100` → 1100, `1100 turns` → 1100: offered, never assumed. */
function meantNumber(text: string): number | undefined {
  if (/^[+-]?\d{1,3}(?:,\d{3})+$/.test(text)) return numberOf(text.replaceAll(",", ""));
  return numberOf(/^\d+(?:\.\d+)?(?![\d,.])/.exec(text)?.[0] ?? "");
}

function textFrom(text: string, key: TextKey): ScalarReading {
  const trimmed = text.trim();
  const unprintable = /[\u0000-\u001f\u007f\ufffe\uffff]/.test(trimmed);
  if (trimmed !== "" && trimmed.length <= key.longest && !unprintable) return { value: trimmed };
  const what =
    trimmed === ""
      ? "the text is empty"
      : unprintable
        ? "the text has a line break or a control character in it"
        : `the text has ${trimmed.length} characters`;
  return { refusal: { rule: "bad-text", what, expected: `a text of 1 to ${key.longest} characters on one line` } };
}

function flagFrom(text: string, key: FlagKey, path: string): ScalarReading {
  if (text === "true" || text === "false") return { value: text === "true" };
  const meant = /^(yes|y|on|1|true)$/i.test(text) ? "true" : /^(no|n|off|0|false)$/i.test(text) ? "false" : undefined;
  return {
    refusal: {
      rule: "not-a-flag",
      what: `\`${clip(text)}\` is neither true nor false`,
      expected: expectationOf(key),
      remedies: meant === undefined ? [] : [setTo(path, meant)],
    },
  };
}

/** A word that is none of `words`. */
export function notAChoice(
  text: string,
  { key, words, path }: { key: Key; words: readonly string[]; path: string },
): Refusal {
  const near = closestOf(text, words);
  return {
    rule: "not-a-choice",
    what: `\`${clip(text)}\` is not one of the words for this key`,
    expected: expectationOf(key),
    remedies: near === undefined ? [] : [setTo(path, near)],
  };
}
