import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { percent, volts } from "../words.ts";

/** Peak to peak, as a part of the mean. Common practice, no source. */
const lines = { look: 0.15, fix: 0.4 };

export const busRippleLarge = defineRule({
  id: "bus-ripple-large",
  room: "driver",
  says: "Bursts that fall into the valleys of the mains are weaker than those on its crests: the note hums, and its arc flickers.",
  source: "ideal-rectifier",
  needs: ["bus.ripple", "bus.voltage"],
  judge(context) {
    const { supply } = context.coil;
    const found = greatest(context, "bus.ripple");
    if (supply === undefined || found === undefined) return [];
    const most = found.most.value / (found.study.figures.get("bus.voltage")?.value ?? context.value("bus.voltage"));
    const severity = graded({ now: found.now.value / context.value("bus.voltage"), most }, lines);
    if (severity === undefined) return [];
    const path = "supply.capacitors.each";
    return [
      {
        severity,
        path,
        what: `the bus swings by ${volts(found.most.value)}, ${percent(most)} of it, at twice the mains frequency ${found.basis}`,
        expected: `at most ${percent(lines.look)}`,
        evidence: [...found.evidence, "mains.power"],
        remedies: [
          setTo(context, {
            path,
            value: (1.1 * supply.capacitors.each * most) / lines.look,
            dimension: "capacitance",
            digits: 2,
            toward: "up",
          }),
          byHand("play the rate at a multiple of twice the mains frequency, so that each burst meets the same bus"),
        ],
      },
    ];
  },
});
