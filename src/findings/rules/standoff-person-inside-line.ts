import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { standoffOf } from "../standoff-of.ts";
import { roughLength } from "../words.ts";

export const standoffPersonInsideLine = defineRule({
  id: "standoff-person-inside-line",
  room: "stand-off",
  says: "Between the arc's distance and the line, fields, noise or practice still ask for room.",
  source: "stand-off-practice",
  judge(context) {
    const { coil } = context;
    if (coil.site.people.length === 0) return [];
    const found = standoffOf(context);
    const line = found?.figures.get("standoff.audience")?.value;
    const arc = found?.line.candidates.find(({ id }) => id === "reach")?.distance;
    if (found === undefined || line === undefined || arc === undefined) return [];
    return coil.site.people.flatMap(({ at, radius }, index) => {
      // Nearer than that another rule speaks.
      if (at >= line || at - radius < arc) return [];
      const path = `site.people.${index}.at`;
      return [
        {
          severity: "look" as const,
          path,
          what: `somebody stands ${roughLength(at)} from the axis, and the line for bystanders is ${roughLength(line)}`,
          expected: `bystanders at or outside the line, which is decided by this: ${found.line.decides?.says ?? "the reach"}; whoever works nearer is crew, and knows why`,
          evidence: ["burst.streamerLength", "burst.peakTopVoltage"],
          remedies: [
            ...(1.1 * line + radius < (coil.site.wall?.radius ?? Number.POSITIVE_INFINITY)
              ? [setTo(context, { path, value: 1.02 * line, dimension: "length", digits: 2, toward: "up" })]
              : []),
            byHand("let nobody but crew stand there, or lower the interrupter's limits and judge it again"),
          ],
        },
      ];
    });
  },
});
