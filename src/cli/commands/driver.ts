import { driverText } from "../../views/text/driver.ts";
import { driverJson } from "../../views/text/json.ts";
import type { Io } from "../io.ts";
import { type RoomPage, roomPage } from "../room-page.ts";

const page: RoomPage = {
  rooms: ["driver"],
  groups: ["switch", "bus", "mains", "gate", "feedback", "control"],
  json: driverJson,
  head: ({ coil, study, fileName, width, colour }) => [driverText({ coil, study, fileName, width, colour })],
};

/** `coilwright driver FILE`: whether supply, bridge, gate drive, feedback and trips hold. */
export async function driver(io: Io, name: string, options: { json?: boolean; sure?: boolean }): Promise<number> {
  return roomPage(io, name, { page, setting: {}, ...options });
}
