import { byHand, defineRule } from "../rule.ts";
import { length } from "../words.ts";

const thin = 0.1e-3;

export const wireHairThin = defineRule({
  id: "wire-hair-thin",
  room: "shape",
  says: "Wire this thin tears in winding and melts at the first flashover.",
  source: "common-practice",
  judge({ coil }) {
    const { bare } = coil.secondary.wire;
    if (bare >= thin) return [];
    return [
      {
        severity: "look",
        path: "secondary.wire",
        what: `wire of ${length(bare)} is hard to wind without a break and does not survive a flashover`,
        expected: `${length(thin)} or thicker`,
        evidence: ["secondary.wire.bare"],
        remedies: [byHand("use thicker wire and fewer turns")],
      },
    ];
  },
});
