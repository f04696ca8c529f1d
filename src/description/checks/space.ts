import type { Coil } from "../coil.ts";
import { type Body, bodiesOf, overlap } from "./bodies.ts";
import { type Checked, found } from "./check.ts";
import { mm } from "./lengths.ts";

/** No part of the coil reaches into the ground, the ceiling or the wall, and no two parts share space. */
export function partsHaveRoom(coil: Coil): readonly Checked[] {
  const bodies = bodiesOf(coil);
  return [...onePerPath(bodies.flatMap((body) => roomOf(body, coil))), ...onePerPath(overlaps(bodies))];
}

/** Many turns may offend in one way; the first says it. */
function onePerPath(checked: readonly Checked[]): readonly Checked[] {
  const seen = new Set<string>();
  return checked.filter(({ finding }) => {
    const key = `${finding.rule} ${finding.path}`;
    return seen.has(key) ? false : seen.add(key);
  });
}

function roomOf(body: Body, { site: { ceiling, wall } }: Coil): readonly Checked[] {
  const { innerR, outerR, bottomZ, topZ } = body.bounds;
  const path = `${body.path}.${body.group === "winding" || body.group === "primary" ? "baseHeight" : "height"}`;
  const checked: Checked[] = [];
  if (bottomZ <= 0) {
    checked.push(
      found({
        rule: "below-ground",
        makesNoCoil: true,
        path,
        what: `${body.says} reaches down to ${mm(bottomZ)}, and the ground plane is at 0 mm`,
        expected: `${body.says} wholly above the ground plane: more than ${mm(-bottomZ)} higher`,
      }),
    );
  }
  if (ceiling !== undefined && topZ >= ceiling.height && innerR < (ceiling.radius ?? Number.POSITIVE_INFINITY)) {
    checked.push(
      found({
        rule: "above-ceiling",
        makesNoCoil: true,
        path,
        what: `${body.says} reaches up to ${mm(topZ)}, and the ceiling is at ${mm(ceiling.height)}`,
        expected: "every part of the coil below the ceiling",
        evidence: ["site.ceiling.height"],
      }),
    );
  }
  if (wall !== undefined && outerR >= wall.radius && bottomZ < (wall.height ?? Number.POSITIVE_INFINITY)) {
    checked.push(
      found({
        rule: "beyond-wall",
        makesNoCoil: true,
        path: body.path,
        what: `${body.says} reaches ${mm(outerR)} from the axis, and the wall is at ${mm(wall.radius)}`,
        expected: "every part of the coil nearer to the axis than the wall",
        evidence: ["site.wall.radius"],
      }),
    );
  }
  return checked;
}

function overlaps(bodies: readonly Body[]): readonly Checked[] {
  const checked: Checked[] = [];
  bodies.forEach((first, i) => {
    for (const second of bodies.slice(i + 1)) {
      // Top loads may cross: they are one conductor, and the solver sees its outer surface. Turns have a check of their own.
      if (first.group === second.group && (first.group === "primary" || first.group === "topload")) continue;
      if (!overlap(first, second)) continue;
      checked.push(
        found({
          rule: "parts-overlap",
          makesNoCoil: true,
          path: second.path,
          what: `${second.says} and ${first.says} share space`,
          expected: "a gap between them",
          evidence: [first.path, second.path],
        }),
      );
    }
  });
  return checked;
}
