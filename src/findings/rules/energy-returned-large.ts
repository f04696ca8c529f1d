import { byHand, defineRule } from "../rule.ts";
import { joules, percent } from "../words.ts";

/** Part of what was drawn. Common practice, no source. */
const much = 0.5;

export const energyReturnedLarge = defineRule({
  id: "energy-returned-large",
  room: "burst",
  says: "Energy that is drawn and given back heats switches, primary and bus on both ways and makes no spark.",
  source: "burst-simulation",
  needs: ["burst.energyDrawn", "burst.energyReturned"],
  judge({ value, study }) {
    const [drawn, returned] = [value("burst.energyDrawn"), value("burst.energyReturned")];
    if (!(returned > much * drawn)) return [];
    const quiet = study?.breakoutTime === undefined;
    return [
      {
        severity: "look",
        path: "interrupter.onTime",
        what: `${percent(returned / drawn)} of the ${joules(drawn)} that a burst draws go back to the bus`,
        expected: `at most ${percent(much)}`,
        evidence: ["burst.energy.streamer"],
        remedies: [
          ...(quiet ? [byHand("make it break out: without a streamer there is nowhere for the energy to go")] : []),
          byHand("tune the tank to the secondary with its streamer, and let the burst end near the notch"),
        ],
      },
    ];
  },
});
