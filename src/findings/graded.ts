import type { Severity } from "../catalogue/finding.ts";

/** Lines that a number crosses from below, each worse than the last. */
export interface Lines {
  readonly look: number;
  readonly fix?: number;
  readonly stop?: number;
}

/**
 * How bad a number is.
 *
 * @param now   at the setting; it alone can be more than worth a look
 * @param most  at the interrupter's limits, or at the upper end of an interval: what may come is worth a look, not more
 * @returns undefined where no line is crossed
 */
export function graded(
  { now, most = now }: { readonly now: number; readonly most?: number },
  { look, fix = Number.POSITIVE_INFINITY, stop = Number.POSITIVE_INFINITY }: Lines,
): Severity | undefined {
  if (now > stop) return "stop";
  if (now > fix) return "fix";
  return Math.max(now, most) > look ? "look" : undefined;
}
