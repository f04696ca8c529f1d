import { byHand, defineRule, setting } from "../rule.ts";

export const nobodyListed = defineRule({
  id: "nobody-listed",
  room: "stand-off",
  says: "Nobody can be kept clear who is not in the file.",
  source: "stand-off-practice",
  judge({ coil }) {
    if (coil.site.people.length > 0) return [];
    return [
      {
        severity: "look",
        path: "site.people",
        what: "nobody is listed in the room, so nobody's distance is judged",
        expected: "people: where the operator and the nearest bystander stand",
        remedies: [
          setting({ path: "site.people", value: "[ { at: 4 m, height: 1.75 m } ]" }),
          byHand("measure where people stand and list them"),
        ],
      },
    ];
  },
});
