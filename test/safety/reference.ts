/** Values of the published documents, each with its source beside it: test/reference/safety.json, tissue.json, noise.json. */
import { readFileSync } from "node:fs";

export interface Entry {
  readonly quantity: string;
  readonly conditions: string;
  readonly value: unknown;
  readonly unit: string;
  readonly source: string;
  readonly seen: string;
}

const read = (name: string): readonly Entry[] =>
  JSON.parse(readFileSync(new URL(`../reference/${name}.json`, import.meta.url), "utf8")).entries;
const all = { safety: read("safety"), tissue: read("tissue"), noise: read("noise") };

/** The one entry whose quantity, and conditions where given, begin so. */
export function entry(file: keyof typeof all, quantity: string, conditions = ""): Entry {
  const found = all[file].filter((one) => one.quantity.startsWith(quantity) && one.conditions.startsWith(conditions));
  if (found.length !== 1) throw new Error(`${found.length} entries for ${quantity} | ${conditions}`);
  return found[0]!;
}

export const numberOf = (...which: Parameters<typeof entry>): number => entry(...which).value as number;
export const numbersOf = (...which: Parameters<typeof entry>): readonly number[] => entry(...which).value as number[];
export const entriesOf = (file: keyof typeof all): readonly Entry[] => all[file];
