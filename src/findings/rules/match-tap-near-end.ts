import { defineRule, setting } from "../rule.ts";
import { number } from "../words.ts";

const room = 0.5;

export const matchTapNearEnd = defineRule({
  id: "match-tap-near-end",
  room: "resonance",
  says: "A tune point within the last half turn leaves no way to tune lower when the streamer loads the coil more than foreseen.",
  source: "common-practice",
  needs: ["tuning.tapForMatch"],
  judge({ coil, value }) {
    const { primary } = coil;
    if (primary === undefined) return [];
    const tap = value("tuning.tapForMatch");
    if (tap > primary.turns || tap <= primary.turns - room) return [];
    return [
      {
        severity: "look",
        path: "primary.turns",
        what: `the aim asks for ${number(tap)} of ${number(primary.turns)} turns, within the last half turn`,
        expected: `at least half a turn beyond it, ${Math.ceil(tap + room)} turns`,
        remedies: [setting({ path: "primary.turns", value: String(Math.ceil(tap + 2 * room)) })],
      },
    ];
  },
});
