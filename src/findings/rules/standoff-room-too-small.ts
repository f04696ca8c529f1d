import { wallsOf } from "../../description/walls.ts";
import { byHand, defineRule } from "../rule.ts";
import { standoffOf } from "../standoff-of.ts";
import { roughLength } from "../words.ts";

export const standoffRoomTooSmall = defineRule({
  id: "standoff-room-too-small",
  room: "stand-off",
  says: "A line that lies outside the room leaves no place for anybody.",
  source: "stand-off-practice",
  judge(context) {
    const room = context.coil.show?.room;
    const walls = wallsOf(context.coil);
    const found = room && standoffOf(context);
    const line = found?.figures.get("standoff.audience")?.value;
    if (room === undefined || walls === undefined || line === undefined || room.airing === "open") return [];
    const { ahead } = walls;
    if (ahead > line) return [];
    return [
      {
        severity: "fix",
        path: "show.room.depth",
        what: `the room ends ${roughLength(Math.max(0, ahead))} before the coil, and the line for bystanders is ${roughLength(line)}`,
        expected: "bystanders behind the line and in the room, or nobody in the room but the operator",
        evidence: ["burst.streamerLength", "burst.peakTopVoltage"],
        remedies: [byHand("run it in a larger room or in the open, or with nobody in the room and the door kept")],
      },
    ];
  },
});
