import type { Coil } from "../coil.ts";
import { bodiesOf } from "./bodies.ts";
import { type Checked, found } from "./check.ts";
import { mm } from "./lengths.ts";

interface Visitor {
  readonly path: string;
  readonly says: string;
  readonly at: number;
  readonly radius: number;
  readonly foot: number;
  readonly top: number;
}

/** People and things stand beside the coil and inside the room. */
export function visitorsStandClear(coil: Coil): readonly Checked[] {
  const { people, objects } = coil.site;
  const visitors: readonly Visitor[] = [
    ...people.map((p, i) => ({
      path: `site.people.${i}`,
      says: `person ${i + 1}`,
      at: p.at,
      radius: p.radius,
      foot: p.foot,
      top: p.height,
    })),
    ...objects.map((o, i) => ({
      path: `site.objects.${i}`,
      says: `the ${o.kind} (object ${i + 1})`,
      at: o.at,
      radius: o.diameter / 2,
      foot: o.foot,
      top: o.height,
    })),
  ];
  const bodies = visitors.length === 0 ? [] : bodiesOf(coil);
  return visitors.flatMap((visitor) => [...insideCoil(visitor, bodies), ...insideRoom(visitor, coil)]);
}

function insideCoil(visitor: Visitor, bodies: ReturnType<typeof bodiesOf>): readonly Checked[] {
  const inner = visitor.at - visitor.radius;
  const hit = bodies.find(
    ({ bounds }) => inner <= bounds.outerR && visitor.foot < bounds.topZ && visitor.top > bounds.bottomZ,
  );
  if (hit === undefined && inner > 0) return [];
  const needed = Math.max(hit?.bounds.outerR ?? 0, 0) + visitor.radius;
  return [
    found({
      rule: "stands-in-coil",
      makesNoCoil: true,
      path: `${visitor.path}.at`,
      what: `${visitor.says} at ${mm(visitor.at)} from the axis stands in ${hit?.says ?? "the axis of the coil"}`,
      expected: `a distance of more than ${mm(needed)}`,
      evidence: hit === undefined ? [] : [hit.path],
    }),
  ];
}

function insideRoom(visitor: Visitor, { site: { wall, ceiling } }: Coil): readonly Checked[] {
  const checked: Checked[] = [];
  if (
    wall !== undefined &&
    visitor.at + visitor.radius >= wall.radius &&
    visitor.foot < (wall.height ?? Number.POSITIVE_INFINITY)
  ) {
    const behind = visitor.at - visitor.radius > wall.radius;
    checked.push(
      found({
        rule: behind ? "stands-behind-wall" : "stands-in-wall",
        makesNoCoil: !behind,
        severity: behind ? "look" : "stop",
        path: `${visitor.path}.at`,
        what: behind
          ? `${visitor.says} at ${mm(visitor.at)} from the axis is behind the wall at ${mm(wall.radius)}, which is modelled as a round one and screens it`
          : `${visitor.says} reaches from ${mm(visitor.at - visitor.radius)} to ${mm(visitor.at + visitor.radius)} from the axis, through the wall at ${mm(wall.radius)}`,
        expected: behind
          ? "a wall farther away, or people and things inside it"
          : `a distance of less than ${mm(wall.radius - visitor.radius)}, or a wall farther away; it is modelled as a round one`,
        evidence: ["site.wall.radius"],
      }),
    );
  }
  if (
    ceiling !== undefined &&
    visitor.top >= ceiling.height &&
    visitor.at - visitor.radius < (ceiling.radius ?? Number.POSITIVE_INFINITY)
  ) {
    checked.push(
      found({
        rule: "stands-in-ceiling",
        makesNoCoil: true,
        path: `${visitor.path}.height`,
        what: `${visitor.says} reaches up to ${mm(visitor.top)}, and the ceiling is at ${mm(ceiling.height)}`,
        expected: `a height of less than ${mm(ceiling.height)}`,
        evidence: ["site.ceiling.height"],
      }),
    );
  }
  return checked;
}
