import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes } from "../words.ts";

/** Peak [A] at which a breaker of 16 A, characteristic B, may open at once (three times), and does (five times and more). From memory. */
const [may, does] = [48, 160];

export const inrushHigh = defineRule({
  id: "inrush-high",
  room: "driver",
  says: "An empty bus is a short across the mains: its first half-wave welds switches, opens breakers and cracks rectifiers.",
  source: "iec-60898",
  needs: ["mains.inrushPeak"],
  judge(context) {
    const { supply } = context.coil;
    const peak = context.value("mains.inrushPeak");
    if (supply === undefined || peak <= may) return [];
    const ntc = supply.inrush?.ntc;
    const path = ntc === undefined ? "supply" : "supply.inrush.ntc";
    // Voltage over resistance, the mains' own half ohm in it.
    const needed = ((ntc ?? 0) + 0.5) * (peak / may) - 0.5;
    return [
      {
        severity: peak > does ? "fix" : "look",
        path,
        what: `switching on takes up to ${amperes(peak)}${ntc === undefined ? ", since nothing in the file limits it" : ""}`,
        expected: `at most ${amperes(may)}, where a breaker of 16 A may open`,
        evidence: ["supply.mains", "supply.inrush"],
        remedies: [
          ntc === undefined
            ? {
                says: `supply.inrush: { ntc: ${Math.ceil(1.2 * needed)} Ω }`,
                edits: [{ path: "supply.inrush", value: `{ ntc: ${Math.ceil(1.2 * needed)} Ω }` }],
              }
            : setTo(context, {
                path: "supply.inrush.ntc",
                value: 1.2 * needed,
                dimension: "resistance",
                digits: 2,
                toward: "up",
              }),
          byHand("charge the bus through a resistor that a relay bridges afterwards"),
        ],
      },
    ];
  },
});
