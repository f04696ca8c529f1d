/** Numbers as they are written on drawings and in data sheets: `0.35`, `1e-3`, `3/8`, `1 1/2`. */

const spaces = "[ \\t\\u00a0\\u2009\\u202f]";
const decimal = "(?:\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d+)?";
const mixedPattern = new RegExp(`^([+\\-\\u2212]?)(\\d+)${spaces}+(\\d+)/(\\d+)`);
const fractionPattern = /^([+\-\u2212]?)(\d+)\/(\d+)/;
const decimalPattern = new RegExp(`^([+\\-\\u2212]?)(${decimal})`);

export interface LeadingNumber {
  readonly value: number;
  /** Length of the number in the text. */
  readonly length: number;
}

/** The number at the start of `text`, or undefined. The value may be infinite where the text overflows or divides by zero: check it. */
export function leadingNumber(text: string): LeadingNumber | undefined {
  const mixed = mixedPattern.exec(text);
  if (mixed !== null) {
    const [whole, sign, units = "", top = "", bottom = ""] = mixed;
    return { value: signOf(sign) * (Number(units) + Number(top) / Number(bottom)), length: whole.length };
  }
  const fraction = fractionPattern.exec(text);
  if (fraction !== null) {
    const [whole, sign, top = "", bottom = ""] = fraction;
    return { value: (signOf(sign) * Number(top)) / Number(bottom), length: whole.length };
  }
  const plain = decimalPattern.exec(text);
  if (plain === null) return undefined;
  const [whole, sign, digits = ""] = plain;
  return { value: signOf(sign) * Number(digits), length: whole.length };
}

/** A text that is one number and nothing else, or undefined; never infinite. */
export function numberOf(text: string): number | undefined {
  const trimmed = text.trim();
  const found = leadingNumber(trimmed);
  return found !== undefined && found.length === trimmed.length && Number.isFinite(found.value)
    ? found.value
    : undefined;
}

/** The shortest decimal text that gives back `value` within 12 significant digits: 0.1 + 0.2 → `0.3`. */
export function writeNumber(value: number): string {
  const rounded = Number(value.toPrecision(12));
  return Object.is(rounded, -0) ? "0" : String(rounded);
}

function signOf(sign: string | undefined): number {
  return sign === "-" || sign === "\u2212" ? -1 : 1;
}
