import { byHand, defineRule, setting } from "../rule.ts";
import { farads, number, quantityText } from "../words.ts";

export const matchTapBeyond = defineRule({
  id: "match-tap-beyond",
  room: "resonance",
  says: "A tune point beyond the last turn cannot be reached by any tap.",
  source: "lc-resonance",
  needs: ["tuning.capacitorForMatch", "tank.capacitance"],
  judge(context) {
    const { primary, tank } = context.coil;
    if (primary === undefined || tank === undefined) return [];
    const bank = context.value("tuning.capacitorForMatch");
    const tap = context.valueIfKnown("tuning.tapForMatch");
    // The search for a tap ends well beyond the last turn; without a result the bank says on which side it lies.
    const beyond = tap === undefined ? bank > context.value("tank.capacitance") : tap > primary.turns;
    if (!beyond) return [];
    const each = (bank * tank.bank.series) / tank.bank.parallel;
    const turns = tap === undefined ? undefined : Math.ceil(tap + 0.5);
    return [
      {
        severity: "fix",
        path: "primary.turns",
        what: `the aim asks for ${tap === undefined ? "far more turns in circuit" : `${number(tap)} turns in circuit`}, and the primary has ${number(primary.turns)}`,
        expected: turns === undefined ? "a larger bank" : `at least ${turns} turns, or a larger bank`,
        evidence: tap === undefined ? [] : ["tuning.tapForMatch"],
        remedies: [
          ...(tap === undefined || turns === undefined
            ? [byHand("use many more turns")]
            : [
                setting(
                  { path: "primary.turns", value: String(turns) },
                  { path: "primary.tap", value: tap.toFixed(2) },
                ),
              ]),
          {
            says: `tank.bank.each: ${farads(each)}, a bank of ${farads(bank)} at the present tap`,
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
