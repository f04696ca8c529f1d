import { defineProgrammeRule } from "../programme-rule.ts";
import { byHand } from "../rule.ts";
import { percent, seconds } from "../words.ts";

/** Part of the pulses that may be dark. Common practice, no source. */
const accepted = 0.1;

export const programmeUnlit = defineProgrammeRule({
  id: "programme-unlit",
  says: "A pulse that ends before the top breaks out makes no spark and no sound to speak of, and still heats the switches.",
  source: "programme-energies",
  needs: ["programme.unlit", "programme.pulses", "programme.longestOnTime"],
  judge({ value, valueIfKnown }) {
    const [dark, sent] = [value("programme.unlit"), value("programme.pulses")];
    if (sent === 0 || !(dark > accepted * sent)) return [];
    const takes = valueIfKnown("programme.breakoutOnTime");
    const longest = seconds(value("programme.longestOnTime"));
    return [
      {
        severity: "look",
        path: "interrupter.onTime",
        what: `${percent(dark / sent)} of the pulses are too short to break out of the smooth top${takes === undefined ? `, the longest of ${longest} too` : `, which takes ${seconds(takes)}`}`,
        expected: takes === undefined ? "pulses that break out" : `pulses of at least ${seconds(takes)}`,
        evidence: ["topload.breakoutVoltage"],
        remedies: [
          byHand("put a point on the top, which breaks out sooner, and say where in the file"),
          byHand("plan with a longer on-time, within the limits"),
        ],
      },
    ];
  },
});
