import { byHand, defineRule } from "../rule.ts";
import { number } from "../words.ts";

const high = 700;

export const qImplausible = defineRule({
  id: "q-implausible",
  room: "resonance",
  says: "Former, coating and ground lose some power that this Q leaves out; above a point they decide.",
  source: "common-practice",
  needs: ["secondary.qUnloaded"],
  judge({ value }) {
    const q = value("secondary.qUnloaded");
    if (q <= high) return [];
    return [
      {
        severity: "look",
        path: "secondary.wire",
        what: `a Q of ${number(q)} counts the copper alone; former, coating and ground will hold it lower`,
        expected: "200 to 400 measured on most windings",
        remedies: [byHand("measure the ring-down and match it before trusting a loss that depends on Q")],
      },
    ];
  },
});
