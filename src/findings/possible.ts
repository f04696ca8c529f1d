/** Whether the file could say what a remedy would write: a number far outside a key's range belongs to no remedy. */
import type { Edit, Remedy } from "../catalogue/finding.ts";
import { isQuantityKey, keyAt, usualLimits } from "../catalogue/keys.ts";
import { coilKey } from "../description/coil-keys.ts";
import { readQuantity } from "../units/index.ts";

/** A remedy without edits always can be; one with edits where every number of them lies in its key's range. */
export const isPossible = ({ edits }: Remedy): boolean => edits.every(isInRange);

function isInRange({ path, value }: Edit): boolean {
  const key = keyAt(coilKey, path);
  if (value === undefined || key === undefined) return true;
  if (isQuantityKey(key)) {
    const { dimension } = key;
    const read = (text: string) => {
      const reading = readQuantity(text, { dimension });
      return "quantity" in reading ? reading.quantity.value : Number.NaN;
    };
    const [from, to] = [key.from ?? usualLimits[dimension].from, key.to ?? usualLimits[dimension].to].map(read);
    const number = read(value);
    return number >= (from ?? number) && number <= (to ?? number);
  }
  if (key.kind !== "count" && key.kind !== "number") return true;
  return Number(value) >= key.from && Number(value) <= key.to;
}
