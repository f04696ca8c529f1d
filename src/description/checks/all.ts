import type { Coil } from "../coil.ts";
import type { Check, Checked } from "./check.ts";

const checks: readonly Check[] = [];

/** Everything about a coil that cannot be, or cannot be so: in the order of the checks. */
export function checkCoil(coil: Coil): readonly Checked[] {
  return checks.flatMap((check) => check(coil));
}
