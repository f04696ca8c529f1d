import { byHand, defineRule, setting } from "../rule.ts";

export const bankDissipationMissing = defineRule({
  id: "bank-dissipation-missing",
  room: "burst",
  says: "Without the dissipation factor the heat in the bank is left out of the ledger.",
  source: "common-practice",
  judge({ coil }) {
    const bank = coil.tank?.bank;
    if (bank === undefined || bank.dissipation !== undefined) return [];
    return [
      {
        severity: "look",
        path: "tank.bank",
        what: "the bank has no dissipation factor, so its heat cannot be counted",
        expected: "dissipation: tan δ at the tank's frequency; 0.0005 to 0.001 is usual for polypropylene",
        remedies: [
          setting({ path: "tank.bank.dissipation", value: "0.001" }),
          byHand("take it from the data sheet at the tank's frequency"),
        ],
      },
    ];
  },
});
