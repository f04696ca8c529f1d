import { defineRule, setting } from "../rule.ts";
import { hertz, percent, quantityText } from "../words.ts";

const near = 0.02;

export const fixedFrequencyOffPole = defineRule({
  id: "fixed-frequency-off-pole",
  room: "driver",
  says: "A bridge driven at a fixed frequency away from both poles switches hard and raises little.",
  source: "coupled-circuits",
  needs: ["poles.lower", "poles.upper"],
  judge(context) {
    const sense = context.coil.feedback?.sense;
    if (sense === undefined || typeof sense === "string") return [];
    const poles = [context.value("poles.lower"), context.value("poles.upper")];
    const offs = poles.map((pole) => Math.abs(sense.fixedFrequency / pole - 1));
    if (Math.min(...offs) <= near) return [];
    const path = "feedback.sense.fixedFrequency";
    return [
      {
        severity: "fix",
        path,
        what: `the fixed frequency of ${hertz(sense.fixedFrequency)} lies ${percent(Math.min(...offs))} from the nearer pole`,
        expected: `within ${percent(near)} of ${poles.map(hertz).join(" or ")}`,
        remedies: poles.map((pole) =>
          setting({ path, value: quantityText(context, { path, value: pole, dimension: "frequency", digits: 4 }) }),
        ),
      },
    ];
  },
});
