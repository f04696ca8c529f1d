/** Remedies that shorten or thin out the bursts, and the times that they go by. */
import type { Remedy } from "../catalogue/finding.ts";
import type { Ampere, Ratio, Second } from "../units/si.ts";
import type { BurstStudy } from "../workbench/burst-contract.ts";
import { type Context, setting } from "./rule.ts";
import { quantityText } from "./words.ts";

/** Bursts that end by a time: the setting, the interrupter's limit, or both, whichever is longer. Empty where neither is, or it is nothing. */
export function burstsShortened(context: Context, to: Second | undefined): readonly Remedy[] {
  const { interrupter } = context.coil;
  if (interrupter === undefined || to === undefined || to <= 0) return [];
  const longer = [
    { path: "interrupter.onTime", now: interrupter.onTime },
    ...(interrupter.limits ? [{ path: "interrupter.limits.onTime", now: interrupter.limits.onTime }] : []),
  ].filter(({ now }) => now > to);
  if (longer.length === 0) return [];
  return [
    setting(
      ...longer.map(({ path }) => ({
        path,
        value: quantityText(context, { path, value: to, dimension: "time", digits: 2, toward: "down" }),
      })),
    ),
  ];
}

/** Fewer bursts in a second by a factor below one: the setting, and the limit on the duty that would let it come back. */
export function burstsThinned(context: Context, by: Ratio): readonly Remedy[] {
  const { interrupter } = context.coil;
  if (interrupter === undefined || !(by > 0 && by < 1)) return [];
  const { rate, limits } = interrupter;
  const rateTo = {
    path: "interrupter.rate",
    value: quantityText(context, {
      path: "interrupter.rate",
      value: by * rate,
      dimension: "frequency",
      digits: 2,
      toward: "down",
    }),
  };
  if (limits === undefined) return [setting(rateTo)];
  const dutyTo = {
    path: "interrupter.limits.duty",
    value: quantityText(context, {
      path: "interrupter.limits.duty",
      value: by * limits.duty,
      dimension: "ratio",
      digits: 2,
      toward: "down",
    }),
  };
  return [setting(rateTo, dutyTo)];
}

/** How long a burst may be driven before its current passes a limit; undefined where even its first half-cycles do. */
export function driveTimeBelow({ envelope, figures }: BurstStudy, limit: Ampere): Second | undefined {
  const over = envelope.findIndex(([, current]) => Math.abs(current) > limit);
  if (over < 0) return envelope.at(-1)?.[0];
  const [before] = envelope[over - 1] ?? [];
  const frequency = figures.get("burst.frequency")?.value;
  if (before === undefined || frequency === undefined) return undefined;
  // The gates go off at the next crossing, and the current may still grow by a half-cycle then.
  const to = before - 1 / (2 * frequency);
  return to > 0 ? to : undefined;
}
