/** Where the primary has to stand for another coupling. */
import type { Remedy } from "../catalogue/finding.ts";
import { mutualToEachTurn } from "../fields/inductance.ts";
import { rings } from "../parts/index.ts";
import type { Ratio } from "../units/si.ts";
import { type Context, setting } from "./rule.ts";
import { quantityText } from "./words.ts";

/** Lowest height [m] at which a primary is still suggested. */
const floor = 0.01;

/**
 * The primary moved along the axis so that its coupling becomes `ratio` times today's; strike ring along with it. Both inductances stay, so
 * only the mutual inductance at uniform current is asked.
 *
 * @returns undefined where no height between the floor and the winding's base gives it
 */
export function primaryMovedFor(context: Context, { ratio }: { ratio: Ratio }): Remedy | undefined {
  const { primary, secondary } = context.coil;
  if (primary === undefined) return undefined;
  const pitch = secondary.length / secondary.turns;
  const winding = {
    radius: (secondary.former.outerDiameter + secondary.wire.overall) / 2,
    pitch,
    turns: Math.round(secondary.turns),
  };
  const turns = rings(primary);
  const mutualAt = (baseHeight: number) =>
    mutualToEachTurn({
      rings: turns.map((ring) => ({ ...ring, height: ring.height + baseHeight - primary.baseHeight })),
      winding,
      firstHeight: secondary.baseHeight,
    }).reduce((sum, mutual) => sum + mutual, 0);
  const wanted = ratio * mutualAt(primary.baseHeight);
  let [low, high] = [floor, Math.max(secondary.baseHeight, primary.baseHeight)];
  if (mutualAt(low) > wanted || mutualAt(high) < wanted) return undefined;
  while (high - low > 1e-4) {
    const middle = (low + high) / 2;
    if (mutualAt(middle) > wanted) high = middle;
    else low = middle;
  }
  const path = "primary.baseHeight";
  const to = (key: string, value: number) => ({
    path: key,
    value: quantityText(context, { path: key, value, dimension: "length" }),
  });
  const { strikeRing } = primary;
  return setting(
    to(path, low),
    ...(strikeRing ? [to("primary.strikeRing.height", strikeRing.height + low - primary.baseHeight)] : []),
  );
}
