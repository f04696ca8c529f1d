import { byHand, defineRule } from "../rule.ts";
import { farads, percent } from "../words.ts";

/** Shift of the tank's frequency. */
const look = 0.02;

export const bankToleranceMovesTune = defineRule({
  id: "bank-tolerance-moves-tune",
  room: "resonance",
  says: "Half of the bank's tolerance goes straight into the tune; one measurement takes it away.",
  source: "lc-resonance",
  needs: ["tank.frequency"],
  judge({ coil, provenance }) {
    const bank = coil.tank?.bank;
    const origin = provenance("tank.bank.each");
    if (bank === undefined || origin === undefined || origin.origin === "measured") return [];
    const shift = origin.tolerance / bank.each / 2;
    if (shift <= look) return [];
    return [
      {
        severity: "look",
        path: "tank.bank.each",
        what: `±${percent(2 * shift)} on ${farads(bank.each)} leaves the tank's frequency open by ±${percent(shift)}`,
        expected: `±${percent(look)} or less on the frequency`,
        remedies: [byHand("measure the bank as it is wired and write it with (measured)")],
      },
    ];
  },
});
