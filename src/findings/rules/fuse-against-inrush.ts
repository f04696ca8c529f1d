import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { amperes, number } from "../words.ts";

/** Melting integral over the square of the rating [s] of quick and time-lag fuses, and the part of it that repeated inrush may use. From memory. */
const melting = { quick: 0.5, lag: 4 };
const repeated = 0.3;

export const fuseAgainstInrush = defineRule({
  id: "fuse-against-inrush",
  room: "driver",
  says: "Each switch-on takes a little of a fuse's life; too much of it, and it opens one day without a fault.",
  source: "iec-60127",
  needs: ["mains.inrushSquareTime"],
  judge(context) {
    const { supply } = context.coil;
    const fuse = supply?.fuse;
    if (supply === undefined || fuse === undefined) return [];
    const square = context.value("mains.inrushSquareTime");
    const [quick, lag] = [repeated * melting.quick * fuse ** 2, repeated * melting.lag * fuse ** 2];
    if (square <= lag) return [];
    const ntc = supply.inrush?.ntc;
    return [
      {
        severity: square > lag / repeated ? "fix" : "look",
        path: "supply.fuse",
        what: `switching on takes ${number(square)} A²s; repeated, a time-lag fuse of ${amperes(fuse)} stands about ${number(lag)} A²s and a quick one ${number(quick)} A²s`,
        expected: `at most ${number(lag)} A²s, three tenths of the melting integral`,
        evidence: ["supply.capacitors", "supply.inrush"],
        remedies: [
          ...(ntc === undefined
            ? []
            : [
                setTo(context, {
                  path: "supply.inrush.ntc",
                  value: (1.1 * ntc * square) / lag,
                  dimension: "resistance",
                  digits: 2,
                  toward: "up",
                }),
              ]),
          byHand("use a time-lag fuse, and charge the bus through a resistor that a relay bridges afterwards"),
        ],
      },
    ];
  },
});
