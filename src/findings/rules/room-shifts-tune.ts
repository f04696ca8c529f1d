import { byHand, defineRule } from "../rule.ts";
import { hertz, percent } from "../words.ts";

const look = 0.02;

export const roomShiftsTune = defineRule({
  id: "room-shifts-tune",
  room: "resonance",
  says: "A room this close makes f1 depend on it: a tune found here is not the tune elsewhere, and the model of the room decides it.",
  source: "model-uncertainty",
  needs: ["secondary.f1"],
  judge({ solution, value }) {
    const f1 = value("secondary.f1");
    const shifts = solution?.detunings.filter((d) => d.path === "site.wall" || d.path === "site.ceiling") ?? [];
    return shifts.flatMap(({ path, says, shift }) => {
      const share = Math.abs(shift) / f1;
      if (share < look) return [];
      return [
        {
          severity: "look" as const,
          path,
          what: `${says} shifts f1 by ${hertz(shift)}, ${percent(share)}`,
          expected: `less than ${percent(look)}, or a tune made in this very room`,
          evidence: ["secondary.f1"],
          remedies: [
            byHand("move the coil to the middle of the room"),
            byHand("tune it in the room where it will run"),
          ],
        },
      ];
    });
  },
});
