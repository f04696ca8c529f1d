import { byHand, defineRule } from "../rule.ts";
import { joules, percent } from "../words.ts";

/** Part of what a burst keeps. Common practice, no source. */
const little = 0.25;

export const streamerGetsLittle = defineRule({
  id: "streamer-gets-little",
  room: "burst",
  says: "Where the streamer gets a small part of what a burst keeps, the rest heats winding, primary and switches.",
  source: "burst-simulation",
  needs: ["burst.breakoutTime", "burst.energyDrawn", "burst.energyReturned", "burst.energy.streamer"],
  judge({ value, solution, study }) {
    const kept = value("burst.energyDrawn") - value("burst.energyReturned");
    const given = value("burst.energy.streamer");
    if (!(kept > 0) || given >= little * kept) return [];
    const losses = ["switches", "diodes", "bus", "primary", "tank", "secondary"]
      .map((part) => ({ part, lost: study?.figures.get(`burst.energy.${part}`)?.value ?? 0 }))
      .sort((a, b) => b.lost - a.lost);
    const worst = losses[0];
    return [
      {
        severity: "look",
        path: solution?.coil.interrupter ? "interrupter.onTime" : "topload",
        what: `the streamer gets ${joules(given)}, ${percent(given / kept)} of the ${joules(kept)} that a burst keeps${worst ? `; ${percent(worst.lost / kept)} are lost in ${worst.part === "bus" || worst.part === "tank" ? `the ${worst.part}'s capacitors` : `the ${worst.part}`}` : ""}`,
        expected: `${percent(little)} or more`,
        evidence: worst ? [`burst.energy.${worst.part}`] : [],
        remedies: [
          byHand("let it break out earlier: a breakout point, or a smaller top load"),
          byHand("tune the tank to the secondary with its streamer"),
        ],
      },
    ];
  },
});
