import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

const low = 80;

export const qLow = defineRule({
  id: "q-low",
  room: "resonance",
  says: "A low Q spends the burst in the winding instead of the streamer.",
  source: "quality-factor",
  needs: ["secondary.qUnloaded"],
  judge({ value }) {
    const q = value("secondary.qUnloaded");
    if (q >= low) return [];
    return [
      {
        severity: q < low / 2 ? "fix" : "look",
        path: "secondary.wire",
        what: `the unloaded Q of the winding is ${number(q)}`,
        expected: `${low} or more`,
        remedies: [
          byHand("use thicker wire if its plain resistance is the greater part, thinner wire if proximity is"),
          byHand("use a larger top load, which lowers f1 and the loss with it"),
        ],
      },
    ];
  },
});
