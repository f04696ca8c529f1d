import { topLoadPath } from "../measures.ts";
import { byHand, defineRule, isGuess, setting } from "../rule.ts";
import { length } from "../words.ts";

export const edgeGuessed = defineRule({
  id: "edge-guessed",
  room: "shape",
  says: "The field at an edge goes with the radius of that edge: a guessed one makes the breakout voltage a guess.",
  source: "peek-1929",
  judge(context) {
    return context.coil.topload.flatMap((load, index) => {
      const edge =
        "cylinder" in load
          ? { key: "edgeRadius", value: load.cylinder.edgeRadius, called: "edge radius" }
          : "disc" in load
            ? { key: "thickness", value: load.disc.thickness, called: "thickness" }
            : undefined;
      if (edge === undefined) return [];
      const path = topLoadPath(context.coil, index, edge.key);
      if (!isGuess(context.provenance(path))) return [];
      return [
        {
          severity: "look" as const,
          path,
          what: `the ${edge.called} of ${length(edge.value)} is a guess, and the breakout voltage goes with it`,
          expected: "the radius of the edge, measured",
          evidence: ["topload.breakoutVoltage"],
          remedies: [
            setting({ path, value: `${length(edge.value)} (measured)` }),
            byHand("measure the edge with a radius gauge and write what it shows, with (measured)"),
          ],
        },
      ];
    });
  },
});
