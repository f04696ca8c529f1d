import { byHand, defineRule } from "../rule.ts";
import { standoffOf } from "../standoff-of.ts";
import { roughLength } from "../words.ts";

export const standoffCrewInsideStrike = defineRule({
  id: "standoff-crew-inside-strike",
  room: "stand-off",
  says: "Operator, second person and breaker are of no use where the arc can reach them.",
  source: "stand-off-practice",
  judge(context) {
    const { show } = context.coil;
    const found = show && standoffOf(context);
    const strike = found?.figures.get("standoff.strike")?.value;
    if (show === undefined || found === undefined || strike === undefined) return [];
    const from = strike + found.place.radius;
    return (["operator", "second", "breaker", "exit"] as const).flatMap((who) => {
      const at = show[who]?.at;
      if (at === undefined || at >= from) return [];
      const names = {
        operator: "the operator",
        second: "the second person",
        breaker: "the breaker",
        exit: "the way out",
      };
      return [
        {
          severity: who === "exit" ? ("fix" as const) : ("stop" as const),
          path: `show.${who}.at`,
          what: `${names[who]} is ${roughLength(at)} from the axis, and the strike distance ends at ${roughLength(from)}`,
          expected: `${roughLength(from)} or more, and outside what is meant to be struck`,
          evidence: ["burst.streamerLength"],
          remedies: [byHand("move it out, or lower the interrupter's limits and judge it again")],
        },
      ];
    });
  },
});
