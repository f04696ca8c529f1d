import { byHand, defineRule } from "../rule.ts";
import { joules, percent } from "../words.ts";

/** Part of the energy drawn that the ledger must close to. */
const closes = 1e-3;
const parts = ["switches", "diodes", "bus", "primary", "tank", "secondary", "streamer", "stored"].map(
  (part) => `burst.energy.${part}`,
);

export const burstLedgerOpen = defineRule({
  id: "burst-ledger-open",
  room: "burst",
  says: "Energy that appears or vanishes in the ledger is a fault of the computation; its other figures are then in doubt as well.",
  source: "burst-simulation",
  needs: ["burst.energyDrawn", "burst.energyReturned", ...parts],
  judge({ value }) {
    const drawn = value("burst.energyDrawn");
    const net = drawn - value("burst.energyReturned");
    const open = net - parts.reduce((sum, id) => sum + value(id), 0);
    if (Math.abs(open) <= closes * drawn) return [];
    return [
      {
        severity: "look",
        path: "interrupter",
        what: `the ledger of the burst leaves ${joules(open)} open, ${percent(Math.abs(open) / drawn)} of what was drawn`,
        expected: `a ledger that closes within ${percent(closes)}`,
        remedies: [byHand("doubt the figures of this burst, and tell whoever maintains the program, with the file")],
      },
    ];
  },
});
