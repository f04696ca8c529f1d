import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { nearestWall, wallsOf } from "../../src/description/walls.ts";

type Places = Pick<Coil, "show" | "site">;
const site = (radius?: number) => ({ people: [], objects: [], ...(radius === undefined ? {} : { wall: { radius } }) });
const places = (room: object | undefined, radius?: number): Places =>
  ({ site: site(radius), ...(room ? { show: { acknowledged: [], room } } : {}) }) as unknown as Places;

// by hand: the coil stands in the middle of its room unless said otherwise
describe("the walls about a coil", () => {
  it("are those of the show's room, else the site's nearest one all round, else none", () => {
    const room = { width: 8, depth: 10, airing: "changed" };
    expect(wallsOf(places(room, 3))).toMatchObject({ path: "show.room", behind: 5, ahead: 5, aside: 4 });
    expect(wallsOf(places({ ...room, behind: 2 }))).toMatchObject({ behind: 2, ahead: 8 });
    expect(wallsOf(places(undefined, 3))).toMatchObject({ path: "site.wall", behind: 3, ahead: 3, aside: 3 });
    expect(wallsOf(places(undefined))).toBeUndefined();
  });

  it("come as near as the nearer of both places says; a room that is open has none", () => {
    const room = { width: 8, depth: 10, airing: "changed" };
    expect(nearestWall(places(room, 6))).toEqual({ path: "show.room", away: 4 });
    expect(nearestWall(places(room, 3))).toEqual({ path: "site.wall", away: 3 });
    expect(nearestWall(places({ ...room, airing: "open" }, 6))).toEqual({ path: "site.wall", away: 6 });
    expect(nearestWall(places({ ...room, airing: "open" }))).toBeUndefined();
  });
});
