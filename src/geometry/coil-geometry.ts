/** The coil and its room as filaments and surfaces, in metres. */
import type { Ceiling, Coil, Secondary, Wall } from "../description/coil.ts";
import { conductorOutline, type Outline, rings, surroundings, topLoadOutline } from "../parts/index.ts";
import type { Metre } from "../units/si.ts";
import { outerStretches } from "./outline-stretches.ts";
import type { Stretch } from "./stretch.ts";

/** The winding as even filaments. */
export interface WindingGeometry {
  /** Of the wire's centre line. */
  readonly radius: Metre;
  /** Centre to centre of neighbouring turns. */
  readonly pitch: Metre;
  readonly turns: number;
  /** Of the lowest turn's centre. */
  readonly firstHeight: Metre;
  readonly wireDiameter: Metre;
  /** Its cylinder for the electric field. */
  readonly stretch: Stretch;
}

/** One conductor of revolution about the coil's axis; `path` is its key in the coil file. */
export interface RoundConductor {
  readonly path: string;
  readonly role: "topload" | "primary" | "ring" | "room";
  readonly stretches: readonly Stretch[];
  readonly earthed: boolean;
}

/** A conductor of revolution about an upright axis of its own. */
export interface StandingBody {
  readonly path: string;
  readonly stretches: readonly Stretch[];
  readonly distance: Metre;
  readonly earthed: boolean;
}

export interface CoilGeometry {
  readonly winding: WindingGeometry;
  /** One surface for all that is joined to the top. */
  readonly topload: RoundConductor | undefined;
  /** Primary turns, strike ring, ceiling, wall. */
  readonly round: readonly RoundConductor[];
  readonly standing: readonly StandingBody[];
}

export function coilGeometry(coil: Coil): CoilGeometry {
  const { topload } = coil;
  return {
    winding: windingGeometry(coil.secondary),
    topload:
      topload.length === 0
        ? undefined
        : { path: "topload", role: "topload", stretches: outerStretches(topload.map(topLoadOutline)), earthed: false },
    round: [...primaryConductors(coil), ...room(coil)],
    standing: standing(coil),
  };
}

/** Turn j's centre lies at baseHeight + j·pitch; the cylinder that stands for the winding reaches half a pitch beyond at both ends. */
function windingGeometry({ former, wire, turns, length, baseHeight }: Secondary): WindingGeometry {
  const radius = (former.outerDiameter + wire.overall) / 2;
  const pitch = length / turns;
  const bottom = Math.max(baseHeight - pitch / 2, 1e-6);
  return {
    radius,
    pitch,
    turns,
    firstHeight: baseHeight,
    wireDiameter: wire.bare,
    stretch: {
      piece: { kind: "line", from: { r: radius, z: bottom }, to: { r: radius, z: baseHeight + length - pitch / 2 } },
      from: 0,
      to: 1,
      starts: "edge",
      ends: "edge",
    },
  };
}

function primaryConductors({ primary }: Coil): RoundConductor[] {
  if (!primary) return [];
  // All turns wound are conductors for the electric field, whether the tap uses them or not.
  const turns = rings({ ...primary, tap: primary.turns }).map(({ radius, height }): RoundConductor => {
    const outline = conductorOutline(primary.conductor, { radius, height, angle: primary.angle });
    return { path: "primary", role: "primary", stretches: outerStretches([outline]), earthed: true };
  });
  const ring = primary.strikeRing;
  if (!ring) return turns;
  return [
    ...turns,
    {
      path: "primary.strikeRing",
      role: "ring",
      stretches: outerStretches([surroundings.strikeRing.outline(ring)]),
      earthed: ring.earthed,
    },
  ];
}

/** A wall ends this far below a ceiling that it would meet, as a share of the height: sheets that touch have no clear charge at the seam. */
const seam = 0.04;

function room({ site: { wall, ceiling } }: Coil): RoundConductor[] {
  const conductors: RoundConductor[] = [];
  if (ceiling) {
    const radius = ceiling.radius ?? wall?.radius;
    const outline = surroundings.ceiling.outline({
      height: ceiling.height,
      ...(radius === undefined ? {} : { radius }),
    });
    conductors.push({ path: "site.ceiling", role: "room", stretches: outerStretches([outline]), earthed: true });
  }
  if (wall) {
    const height = wallHeight(wall, ceiling);
    const outline = surroundings.wall.outline({ radius: wall.radius, ...(height === undefined ? {} : { height }) });
    // The wall meets the ground plane, where its charge fades out instead of gathering.
    const stretches = outerStretches([outline]).map((stretch): Stretch => ({ ...stretch, starts: "smooth" }));
    conductors.push({ path: "site.wall", role: "room", stretches, earthed: true });
  }
  return conductors;
}

/** As drawn, or up to the ceiling; never onto or through a ceiling that reaches out to it. */
function wallHeight(wall: Wall, ceiling: Ceiling | undefined): Metre | undefined {
  if (!ceiling) return wall.height;
  const highest = (1 - seam) * ceiling.height;
  const meets = (ceiling.radius ?? wall.radius) > (1 - seam) * wall.radius;
  return meets ? Math.min(wall.height ?? highest, highest) : (wall.height ?? ceiling.height);
}

function standing({ site: { people, objects } }: Coil): StandingBody[] {
  const body = (path: string, outline: Outline, distance: Metre, earthed: boolean): StandingBody => ({
    path,
    distance,
    earthed,
    stretches: outerStretches([outline]),
  });
  return [
    ...people.map((person, i) => body(`site.people.${i}`, surroundings.person.outline(person), person.at, true)),
    ...objects.map((rod, i) => body(`site.objects.${i}`, surroundings.rod.outline(rod), rod.at, rod.earthed)),
  ];
}
