import { windingOfLength } from "../moves.ts";
import { byHand, defineRule, setting } from "../rule.ts";
import { length, percent } from "../words.ts";

/** Share of the winding's length that the wire may fill before an uneven lay no longer fits. */
const full = 0.985;

export const windingNearlyFull = defineRule({
  id: "winding-nearly-full",
  room: "shape",
  says: "The wire fills the winding's length so nearly that an uneven lay will not fit.",
  source: "common-practice",
  judge(context) {
    const { turns, length: long, wire } = context.coil.secondary;
    const laid = turns * wire.overall;
    const fill = laid / long;
    if (fill <= full || fill > 1 + 1e-9) return [];
    const path = "secondary.length";
    return [
      {
        severity: "look",
        path,
        what: `${turns} turns of ${length(wire.overall)} wire fill ${percent(fill)} of the winding; hand winding seldom lies that close`,
        expected: `no more than ${percent(full)}, or the length measured on the finished winding`,
        evidence: ["secondary.turns", "secondary.wire.overall"],
        remedies: [
          windingOfLength(context, laid / 0.97),
          setting({ path: "secondary.turns", value: String(Math.floor((0.97 * long) / wire.overall)) }),
          byHand("wind it, measure the length, and write it with (measured)"),
        ],
      },
    ];
  },
});
