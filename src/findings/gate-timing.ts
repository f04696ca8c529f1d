/** Where the gates should change, and the lead that brings them there. */
import type { Remedy } from "../catalogue/finding.ts";
import type { Second } from "../units/si.ts";
import type { Context } from "./rule.ts";
import { setTo } from "./set-to.ts";

/** Angle [rad] that a lead network can still give back; beyond it the parts must become faster. */
const most = 1.2;

/** After the crossing of the current [s] the opposite switch goes on; negative is before it. Undefined where the study has no such figure. */
export function turnOnAfterCrossing({ coil, valueIfKnown }: Context): Second | undefined {
  const error = valueIfKnown("feedback.timeError");
  return error === undefined ? undefined : error + (coil.bridge?.deadTime ?? 0);
}

/**
 * The remedy that sets the lead so that one switch goes off as long before the crossing as the other goes on after it. A lead network brings a
 * crossing forward by atan(ω·lead)/ω. Empty where no lead does it, or it is there already.
 */
export function lead(context: Context): readonly Remedy[] {
  const { feedback, bridge } = context.coil;
  const frequency = context.valueIfKnown("burst.frequency") ?? context.valueIfKnown("poles.lower");
  if (feedback === undefined || frequency === undefined) return [];
  const omega = 2 * Math.PI * frequency;
  const angle = omega * (feedback.delay + (bridge?.deadTime ?? 0) / 2);
  if (!(angle > 0 && angle < most)) return [];
  const value = Math.tan(angle) / omega;
  if (Math.abs(value / feedback.lead - 1) < 0.03) return [];
  return [setTo(context, { path: "feedback.lead", value, dimension: "time", digits: 2 })];
}
