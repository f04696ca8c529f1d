import { byHand, defineRule } from "../rule.ts";
import { hertz, percent } from "../words.ts";

const near = 0.02;

export const modeNearHarmonic = defineRule({
  id: "mode-near-harmonic",
  room: "resonance",
  says: "The bridge's square wave drives a higher mode that lies on one of its odd harmonics, and stress gathers part way up the winding.",
  source: "distributed-resonator",
  needs: ["secondary.f2", "secondary.f3", "poles.lower"],
  judge({ value }) {
    const drive = value("poles.lower");
    return [2, 3].flatMap((mode) =>
      [3, 5].flatMap((harmonic) => {
        const frequency = value(`secondary.f${mode}`);
        const off = frequency / (harmonic * drive) - 1;
        if (Math.abs(off) > near) return [];
        return [
          {
            severity: "look" as const,
            path: "topload",
            what: `mode ${mode} of the winding at ${hertz(frequency)} lies within ${percent(Math.abs(off))} of ${harmonic} times the lower pole, ${hertz(harmonic * drive)}`,
            expected: `more than ${percent(near)} from the 3rd and 5th harmonic of the drive`,
            evidence: ["tuning.ratio"],
            remedies: [byHand("change the top load or the tap a little, or drive at the upper pole")],
          },
        ];
      }),
    );
  },
});
