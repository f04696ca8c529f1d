import { reach } from "../estimates.ts";
import { reachOrigin } from "../measures.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, roughLength } from "../words.ts";

export const rodNotEarthed = defineRule({
  id: "rod-not-earthed",
  room: "stand-off",
  says: "Metal that is not bonded to earth takes a charge near the coil and hands it to whoever touches it.",
  source: "common-practice",
  judge(context) {
    const { coil } = context;
    const far = reach(context);
    const origin = reachOrigin(coil);
    return coil.site.objects.flatMap((object, index) => {
      const away = Math.max(0, object.at - object.diameter / 2 - origin.radius);
      if (object.earthed || (far !== undefined && away > 3 * far.high)) return [];
      const path = `site.objects.${index}.earthed`;
      return [
        {
          severity: far !== undefined && away < far.high ? ("stop" as const) : ("fix" as const),
          path,
          what: `the ${object.kind} ${length(away)} from the top load is not earthed${far ? `, with a reach of up to ${roughLength(far.high)}` : ""}`,
          expected: "every piece of metal near the coil bonded to its earth, or moved away",
          evidence: [`site.objects.${index}.at`, ...(far?.evidence ?? [])],
          remedies: [setting({ path, value: "true" }), byHand("move it well away")],
        },
      ];
    });
  },
});
