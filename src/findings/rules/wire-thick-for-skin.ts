import { byHand, defineRule } from "../rule.ts";
import { hertz, length, number } from "../words.ts";

/** Bare diameter over skin depth above which the copper inside carries next to nothing. */
const thick = 6;
/** [Ω·m] at 20 °C. Source: iec-60028. */
const copper = 1.7241e-8;

export const wireThickForSkin = defineRule({
  id: "wire-thick-for-skin",
  room: "resonance",
  says: "Close-wound wire much thicker than the skin depth loses more to proximity than it gains in copper.",
  source: "skin-effect-bessel",
  needs: ["secondary.f1"],
  judge({ coil, value }) {
    const { bare } = coil.secondary.wire;
    const f1 = value("secondary.f1");
    const skinDepth = Math.sqrt(copper / (Math.PI * f1 * 4e-7 * Math.PI));
    if (bare <= thick * skinDepth) return [];
    return [
      {
        severity: "look",
        path: "secondary.wire",
        what: `wire of ${length(bare)} is ${number(bare / skinDepth)} times the skin depth of ${length(skinDepth)} at ${hertz(f1)}`,
        expected: `at most ${thick} times, ${length(thick * skinDepth)} here`,
        evidence: ["secondary.wire.bare"],
        remedies: [byHand("use thinner wire and more turns, or leave air between the turns")],
      },
    ];
  },
});
