import { byHand, defineRule } from "../rule.ts";

export const roomNotDescribed = defineRule({
  id: "room-not-described",
  room: "resonance",
  says: "Walls and ceiling shift the tune and are struck; what is not in the file is taken to be far away.",
  source: "boundary-elements",
  judge({ coil: { site } }) {
    const missing = [...(site.wall ? [] : ["wall"]), ...(site.ceiling ? [] : ["ceiling"])];
    if (missing.length === 0) return [];
    return [
      {
        severity: "look",
        path: "site",
        what: `no ${missing.join(" and no ")} is given, so the coil is taken to stand in the open there`,
        expected: `${missing.map((key) => `${key}: its distance`).join(" and ")}, or an open field`,
        remedies: [byHand("measure the room and add it")],
      },
    ];
  },
});
