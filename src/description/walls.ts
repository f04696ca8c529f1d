/** Walls about the coil, from the one place of the file that tells most of them. */
import type { Metre } from "../units/si.ts";
import type { Coil } from "./coil.ts";

export interface Walls {
  readonly path: "show.room" | "site.wall";
  /** Of a room: straight ones; of the site alone: a round one at the nearest wall. */
  readonly shape: "room" | "round";
  /** From the axis: away from the audience, towards it, and to either side, all positive. */
  readonly behind: Metre;
  readonly ahead: Metre;
  readonly aside: Metre;
}

/** The show's room where the file has one, else the nearest wall of the site, all round; undefined where it has neither. */
export function wallsOf({ show, site }: Pick<Coil, "show" | "site">): Walls | undefined {
  const room = show?.room;
  if (room !== undefined) {
    const behind = Math.min(room.depth, room.behind ?? room.depth / 2);
    return { path: "show.room", shape: "room", behind, ahead: room.depth - behind, aside: room.width / 2 };
  }
  if (site.wall === undefined) return undefined;
  const { radius } = site.wall;
  return { path: "site.wall", shape: "round", behind: radius, ahead: radius, aside: radius };
}

/** The wall next to the coil [m from the axis], of both places of the file; a room that is open counts for none. */
export function nearestWall(
  coil: Pick<Coil, "show" | "site">,
): { readonly path: Walls["path"]; readonly away: Metre } | undefined {
  const { show, site } = coil;
  const room = show?.room?.airing === "open" ? undefined : wallsOf(coil);
  const inRoom =
    room?.shape === "room" ? [{ path: room.path, away: Math.min(room.behind, room.ahead, room.aside) }] : [];
  const ofSite = site.wall ? [{ path: "site.wall" as const, away: site.wall.radius }] : [];
  return [...inRoom, ...ofSite].sort((one, other) => one.away - other.away)[0];
}
