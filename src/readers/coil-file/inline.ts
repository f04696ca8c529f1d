/** Records written on one line: `230 V 50 Hz`, `6 mm x 0.07 mm`, `3.4 m`. */
import type { RecordKey } from "../../catalogue/keys.ts";
import { isQuantityKey } from "../../catalogue/keys.ts";
import { readQuantity } from "../../units/quantity.ts";

/** One part of such a line: which key it stands for, its text and where in the line it begins. */
export interface InlinePart {
  readonly name: string;
  readonly text: string;
  readonly at: number;
}

/**
 * Splits a line into its parts, in the order of the record. Where it can be cut in more than one way, the cut whose parts all read wins
 * (`230 V ± 10 % 50 Hz`).
 *
 * @returns as many parts as the record's line has, or undefined where the text has another number of them
 */
export function splitInline(text: string, record: RecordKey): readonly InlinePart[] | undefined {
  const inline = record.inline;
  if (inline === undefined) return undefined;
  const [first = "", second] = inline.order;
  if (second === undefined) return [{ name: first, text, at: 0 }];
  const cuts = [...text.matchAll(inline.between === " x " ? /\s*[x×]\s*/g : /\s+(?=[+\-.\d])/g)].map((cut) => {
    const after = cut.index + cut[0].length;
    return [
      { name: first, text: text.slice(0, cut.index), at: 0 },
      { name: second, text: text.slice(after), at: after },
    ];
  });
  const reads = (part: InlinePart): boolean => {
    const key = record.keys[part.name];
    return (
      key !== undefined && isQuantityKey(key) && "quantity" in readQuantity(part.text, { dimension: key.dimension })
    );
  };
  return cuts.find((parts) => parts.every(reads)) ?? cuts[0];
}
