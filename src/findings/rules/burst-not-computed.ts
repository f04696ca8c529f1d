import { byHand, defineRule } from "../rule.ts";

/** Sections that a burst needs, in the order of the file. */
const needed = ["primary", "tank", "bridge", "supply", "feedback", "interrupter"] as const;

export const burstNotComputed = defineRule({
  id: "burst-not-computed",
  room: "burst",
  says: "Where a section is missing no burst is computed, and no finding looks at current, heat, bus or reach of it.",
  source: "burst-simulation",
  judge({ coil, study }) {
    if (study === undefined) return [];
    const missing = needed.filter((path) => study.missing.some((one) => one.path === path));
    if (missing.length === 0) return [];
    const there = needed.filter((path) => coil[path] !== undefined);
    return [
      {
        severity: "look",
        path: there.at(-1) ?? "secondary",
        what: `the file has no ${missing.join(", ")}, so no burst is computed`,
        expected: `${missing.join(", ")} in the file`,
        evidence: missing,
        remedies: [byHand(`add ${missing.join(", ")}; coilwright new shows each of them`)],
      },
    ];
  },
});
