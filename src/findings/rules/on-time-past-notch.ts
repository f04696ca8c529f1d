import { burstsShortened } from "../bursts.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, seconds } from "../words.ts";

/** Current in the notch, as a part of the maximum before it, below which the energy has passed over. */
const deep = 0.5;

export const onTimePastNotch = defineRule({
  id: "on-time-past-notch",
  room: "burst",
  says: "At the notch the tank has handed over what it held; driving on fetches it back from the secondary and heats switches and primary.",
  source: "coupled-circuits",
  needs: ["burst.notchTime", "burst.frequency"],
  judge(context) {
    const { study, value } = context;
    if (study === undefined) return [];
    const notch = value("burst.notchTime");
    const driven = context.valueIfKnown("burst.driveTime") ?? study.setting.onTime;
    const before = Math.max(
      0,
      ...study.envelope.filter(([time]) => time < notch).map(([, current]) => Math.abs(current)),
    );
    const left = Math.min(
      ...study.envelope
        .filter(([time]) => Math.abs(time - notch) < 1 / value("burst.frequency"))
        .map(([, current]) => Math.abs(current)),
    );
    if (!(left < deep * before) || driven <= notch + 1 / value("burst.frequency")) return [];
    return [
      {
        severity: "look",
        path: "interrupter.onTime",
        what: `the current has its notch after ${seconds(notch)}, ${amperes(left)} after ${amperes(before)}, and the bridge drives on until ${seconds(driven)}`,
        expected: `an on-time near ${seconds(notch)}, unless a streamer is to be fed for longer`,
        evidence: ["burst.driveTime", "coupling.k"],
        remedies: [...burstsShortened(context, notch), byHand("lower the coupling, so that the notch comes later")],
      },
    ];
  },
});
