import { byHand, defineRule, setting } from "../rule.ts";

export const senseTransformerMissing = defineRule({
  id: "sense-transformer-missing",
  room: "driver",
  says: "Without the current transformer's ratio and burden neither the start of a burst, nor the trip's voltage, nor the burden's heat can be judged.",
  source: "current-transformer",
  judge({ coil, study }) {
    const { feedback } = coil;
    if (study === undefined || feedback === undefined || feedback.transformer !== undefined) return [];
    if (typeof feedback.sense !== "string" && feedback.overcurrent === undefined) return [];
    const secondary = feedback.sense === "secondaryCurrent";
    return [
      {
        severity: "look",
        path: "feedback",
        what: secondary
          ? "the file does not say through what the secondary's base current is sensed; the comparator is taken to see 5 mA"
          : "the file does not say through what the primary current is sensed; the comparator is taken to see 1 A",
        expected: "transformer: { ratio, burden }",
        evidence: ["feedback.sense"],
        remedies: [
          setting({
            path: "feedback.transformer",
            value: secondary ? "{ ratio: 50, burden: 22 Ω }" : "{ ratio: 1000, burden: 5.1 Ω }",
          }),
          byHand("count its turns and measure the burden"),
        ],
      },
    ];
  },
});
