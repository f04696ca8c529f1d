import { topVoltage } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { roughVolts, seconds } from "../words.ts";

export const breakoutNotReached = defineRule({
  id: "breakout-not-reached",
  room: "burst",
  says: "A burst without breakout keeps its energy: it goes to and fro until winding and switches have turned it into heat.",
  source: "burst-simulation",
  needs: ["burst.peakTopVoltage", "topload.breakoutVoltage"],
  judge(context) {
    const { study } = context;
    if (study === undefined || !study.setting.streamer || study.breakoutTime !== undefined) return [];
    const { breakoutVoltage, onTime } = study.setting;
    const voltage = topVoltage(context);
    const breakout = context.figure("topload.breakoutVoltage");
    // Where even the earliest breakout lies above the hardest burst, the other rule speaks.
    if (voltage === undefined || (breakout?.low ?? breakoutVoltage) > voltage.high) return [];
    return [
      {
        severity: "look",
        path: "topload",
        what: `the top reaches ${roughVolts(context.value("burst.peakTopVoltage"))} in a burst of ${seconds(onTime)} and breaks out at ${roughVolts(breakoutVoltage)}: no streamer forms`,
        expected: "breakout in the first half of the burst",
        evidence: ["interrupter.onTime"],
        remedies: [
          byHand("fit a breakout point: a blunt rod of a few millimetres that stands out by a tube's diameter"),
          byHand("make the burst longer, or the bus higher, within what switches and bank hold"),
        ],
      },
    ];
  },
});
