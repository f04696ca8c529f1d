import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { amperes, percent, watts } from "../words.ts";

/** Part of the fuse's rating from which on it warms and ages. Common practice, no source. */
const near = 0.8;

export const programmePowerNearFuse = defineProgrammeRule({
  id: "programme-power-near-fuse",
  says: "A song near the fuse's rating for seconds warms the fuse, the plug and the cable; a fuse may blow in the loudest passage.",
  source: "programme-energies",
  needs: ["programme.peakPower"],
  judge({ figure, coil, programme: { limits } }) {
    const power = figure("programme.peakPower");
    const fuse = coil.supply?.fuse;
    if (power === undefined || fuse === undefined || limits?.power === undefined) return [];
    const high = power.high ?? power.value;
    if (!(high > near * limits.power)) return [];
    return [
      {
        severity: "look",
        path: "supply.fuse",
        what: `the worst second takes up to ${watts(high)} from the bus, ${percent(high / limits.power)} of the ${watts(limits.power)} that a fuse of ${amperes(fuse)} lets through at a power factor of 0.6`,
        expected: `at most ${watts(near * limits.power)}`,
        evidence: ["supply.mains"],
        remedies: [
          byHand("plan with a shorter on-time, or let it be fitted with --fit"),
          byHand("let fewer notes sound at a time"),
        ],
      },
    ];
  },
});
