import { graded } from "../graded.ts";
import { greatest } from "../greatest.ts";
import { byHand, defineRule } from "../rule.ts";
import { setTo } from "../set-to.ts";
import { percent, volts } from "../words.ts";

/** Fall of the bus in one burst, as a part of it. Common practice, no source. */
const lines = { look: 0.1, fix: 0.3 };

export const busSagLarge = defineRule({
  id: "bus-sag-large",
  room: "driver",
  says: "A bus that sags within the burst drives its end weaker than its beginning, and each burst starts where the last one left it.",
  source: "burst-simulation",
  needs: ["bus.sagPerBurst"],
  judge(context) {
    const { supply } = context.coil;
    const found = greatest(context, "bus.sagPerBurst");
    if (supply === undefined || found === undefined) return [];
    const bus = found.study.figures.get("bus.voltage")?.value ?? found.study.setting.busVoltage;
    if (!(bus > 0)) return [];
    const most = found.most.value / bus;
    const severity = graded({ now: found.now.value / bus, most }, lines);
    if (severity === undefined) return [];
    const path = "supply.capacitors.each";
    return [
      {
        severity,
        path,
        what: `the bus falls by ${volts(found.most.value)}, ${percent(most)} of it, ${found.basis}`,
        expected: `at most ${percent(lines.look)}`,
        evidence: [...found.evidence, "burst.energyDrawn"],
        remedies: [
          setTo(context, {
            path,
            value: (1.1 * supply.capacitors.each * most) / lines.look,
            dimension: "capacitance",
            digits: 2,
            toward: "up",
          }),
          byHand("put film capacitors beside the bridge; more on the bus stores more, and takes longer to discharge"),
        ],
      },
    ];
  },
});
