import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

/** Part of the winding that counts as its end. */
const end = 0.05;

export const windingEndBreaksOut = defineRule({
  id: "winding-end-breaks-out",
  room: "shape",
  says: "Where the last turns carry a greater field than the top load, the arc leaves from the winding and burns it.",
  source: "boundary-elements",
  needs: ["topload.peakFieldPerVolt"],
  judge({ solution, value }) {
    const mode = solution?.modes[0];
    if (mode === undefined) return [];
    // Only the part along the winding is known at its end; the whole field there is greater still.
    const worst = mode.field
      .slice(Math.floor((1 - end) * mode.field.length))
      .reduce((a, b) => Math.max(a, Math.abs(b)), 0);
    const top = value("topload.peakFieldPerVolt");
    if (worst <= 0.7 * top) return [];
    return [
      {
        severity: worst > top ? "fix" : "look",
        path: "topload",
        what: `per volt at the top the field along the last turns is ${number(worst)}/m, and the greatest on the top load ${number(top)}/m`,
        expected: "less than seven tenths of the top load's field along the last turns",
        remedies: [
          byHand("bring the top load lower over the last turns, or use a wider one"),
          byHand("fit a breakout point to the top load"),
        ],
      },
    ];
  },
});
