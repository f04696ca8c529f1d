import { longestBurst, tankCurrent } from "../estimates.ts";
import { byHand, defineRule } from "../rule.ts";
import { amperes, number } from "../words.ts";

/** Current density in the skin [A/mm²] that bare copper in air carries for minutes. */
const look = 15;
const fix = 40;
/** [Ω·m] at 20 °C. Source: iec-60028. */
const copper = 1.7241e-8;

export const primaryConductorHot = defineRule({
  id: "primary-conductor-hot",
  room: "burst",
  says: "Only the skin of the primary carries current; thin tube and printed trace run hot long before their section suggests.",
  source: "common-practice",
  needs: ["tank.frequency"],
  judge(context) {
    const { primary, interrupter } = context.coil;
    const current = tankCurrent(context);
    if (primary === undefined || interrupter === undefined || current === undefined) return [];
    const skin = Math.sqrt(copper / (Math.PI * context.value("tank.frequency") * 4e-7 * Math.PI));
    const { conductor } = primary;
    const section =
      "trace" in conductor
        ? conductor.trace.width * Math.min(conductor.trace.thickness, 2 * skin)
        : Math.PI * ("tube" in conductor ? conductor.tube : conductor.wire) * skin;
    const duty = Math.min(1, interrupter.limits?.duty ?? longestBurst(interrupter) * interrupter.rate);
    // A ramp of current up to the trip has a third of its mean square.
    const rms = current.high * Math.sqrt(duty / 6);
    const density = rms / (section * 1e6);
    if (density < look) return [];
    return [
      {
        severity: density >= fix ? "fix" : "look",
        path: "primary.conductor",
        what: `about ${amperes(rms)} rms ${current.basis} crowd into ${number(section * 1e6)} mm² of skin, ${number(density)} A/mm²`,
        expected: `less than ${look} A/mm² for bare copper in air`,
        evidence: [...current.evidence, "interrupter"],
        remedies: [byHand("use thicker tube or wider trace"), byHand("lower the duty limit, or rest between songs")],
      },
    ];
  },
});
