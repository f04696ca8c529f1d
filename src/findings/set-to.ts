import type { Remedy } from "../catalogue/finding.ts";
import { type Context, setting } from "./rule.ts";
import { quantityText } from "./words.ts";

/** The remedy that writes another value at one path of the file, in the unit that stands there. */
export function setTo(context: Context, at: Parameters<typeof quantityText>[1]): Remedy {
  return setting({ path: at.path, value: quantityText(context, at) });
}
