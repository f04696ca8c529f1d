import { windingTop } from "../measures.ts";
import { defineRule, setting } from "../rule.ts";
import { length } from "../words.ts";

export const topLoadMissing = defineRule({
  id: "top-load-missing",
  room: "shape",
  says: "Without a top load the end of the winding carries the greatest field, and the arc starts there.",
  source: "common-practice",
  judge({ coil }) {
    if (coil.topload.length > 0) return [];
    const { outerDiameter } = coil.secondary.former;
    const round = (metres: number) => `${Math.round(metres * 1000)} mm`;
    const tube = 0.7 * outerDiameter;
    return [
      {
        severity: "fix",
        path: "topload",
        what: `nothing stands on the winding, so its last turn at ${length(windingTop(coil))} carries the greatest field`,
        expected: "a toroid, sphere, disc or cylinder joined to the last turn",
        remedies: [
          setting({
            path: "topload",
            value: `[ { toroid: { outerDiameter: ${round(2.7 * outerDiameter)}, tubeDiameter: ${round(tube)}, height: ${round(windingTop(coil) + tube / 2 + 0.1 * outerDiameter)} } } ]`,
          }),
        ],
      },
    ];
  },
});
