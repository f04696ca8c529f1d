import { byHand, defineRule } from "../rule.ts";

export const standoffAirClosed = defineRule({
  id: "standoff-air-closed",
  room: "stand-off",
  says: "Ozone and nitrogen oxides gather in a closed room, and the nose gets used to them.",
  source: "air-gases",
  judge({ coil: { show } }) {
    if (show === undefined || (show.room !== undefined && show.room.airing !== "closed")) return [];
    return [
      {
        severity: show.room === undefined ? ("look" as const) : ("fix" as const),
        path: show.room === undefined ? "show.room" : "show.room.airing",
        what:
          show.room === undefined
            ? "the room is not given, so how its air is changed is not known"
            : "no air is changed while it runs",
        expected:
          "fans or windows, breaks, and a stop at a sharp smell; what the arc makes is not known well enough for a concentration",
        remedies: [byHand("open the room or let fans change its air, outward, and write it down")],
      },
    ];
  },
});
