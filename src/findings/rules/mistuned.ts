import { defineRule, setting } from "../rule.ts";
import { farads, hertz, number, percent, quantityText } from "../words.ts";

/** Relative distance from the aim. */
const look = 0.015;
const fix = 0.05;

export const mistuned = defineRule({
  id: "mistuned",
  room: "resonance",
  says: "A tank away from the aim hands over less of its energy, and the switches carry the rest to and fro.",
  source: "common-practice",
  needs: [
    "tuning.ratio",
    "tuning.aimRatio",

    "tuning.capacitorForMatch",
    "tank.frequency",
    "secondary.f1",
  ],
  judge(context) {
    const { value, coil } = context;
    const { primary, tank } = coil;
    const off = value("tuning.ratio") / value("tuning.aimRatio") - 1;
    if (primary === undefined || tank === undefined || Math.abs(off) <= look) return [];
    const tap = context.valueIfKnown("tuning.tapForMatch");
    const bank = value("tuning.capacitorForMatch");
    const each = (bank * tank.bank.series) / tank.bank.parallel;
    return [
      {
        severity: Math.abs(off) > fix ? "fix" : "look",
        path: "primary.tap",
        what: `the tank rings at ${hertz(value("tank.frequency"))}, ${number(value("tuning.ratio"))} of the unloaded ${hertz(value("secondary.f1"))}, ${percent(Math.abs(off))} ${off > 0 ? "above" : "below"} the aim`,
        expected: `a ratio of ${number(value("tuning.aimRatio"))}: ${tap === undefined ? "" : `tap ${number(tap)}, or `}a bank of ${farads(bank)}`,
        evidence: ["tank.bank.each", "tank.leads.inductance"],
        remedies: [
          ...(tap !== undefined && tap <= primary.turns
            ? [setting({ path: "primary.tap", value: tap.toFixed(2) })]
            : []),
          {
            says: `tank.bank.each: ${farads(each)}, a bank of ${farads(bank)}`,
            edits: [
              {
                path: "tank.bank.each",
                value: quantityText(context, { path: "tank.bank.each", value: each, dimension: "capacitance" }),
              },
            ],
          },
        ],
      },
    ];
  },
});
