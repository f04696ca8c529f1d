import { formatQuantity } from "../../units/format.ts";
import type { Coil } from "../coil.ts";
import { type Checked, found } from "./check.ts";

/** A burst ends before the next one begins. */
export function burstsAreApart({ interrupter }: Coil): readonly Checked[] {
  if (interrupter === undefined || interrupter.onTime * interrupter.rate < 1) return [];
  const period = formatQuantity(1 / interrupter.rate, "s", { trim: true });
  return [
    found({
      rule: "burst-longer-than-period",
      makesNoCoil: true,
      path: "interrupter.onTime",
      what: `a burst of ${formatQuantity(interrupter.onTime, "s", { trim: true })} does not end before the next one, which comes after ${period}`,
      expected: `an on-time of less than ${period}, or a lower rate`,
      evidence: ["interrupter.onTime", "interrupter.rate"],
    }),
  ];
}
