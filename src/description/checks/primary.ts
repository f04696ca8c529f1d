import { conductorExtent, rings, unusedRings } from "../../parts/index.ts";
import type { Coil } from "../coil.ts";
import { type Checked, found } from "./check.ts";
import { mm, mmUp } from "./lengths.ts";

/** The tap lies on the winding, its turns and layers do not share copper, and none reaches over the axis. */
export function primaryCanBeWound({ primary }: Coil): readonly Checked[] {
  if (primary === undefined) return [];
  const { turns, tap, pitch, conductor, layers, angle } = primary;
  const { along, across } = conductorExtent(conductor);
  const checked: Checked[] = [];
  if (tap > turns) {
    checked.push(
      found({
        rule: "tap-beyond-turns",
        makesNoCoil: true,
        path: "primary.tap",
        what: `the tap is at ${tap} turns; the primary has ${turns}`,
        expected: `a tap of at most ${turns}`,
        remedies: [
          { says: `tap: ${turns}`, edits: [{ path: "primary.tap", value: String(turns) }] },
          { says: `turns: ${Math.ceil(tap)}`, edits: [{ path: "primary.turns", value: String(Math.ceil(tap)) }] },
        ],
      }),
    );
  }
  if (turns > 1 && pitch < along) {
    checked.push(
      found({
        rule: "primary-turns-overlap",
        makesNoCoil: true,
        path: "primary.pitch",
        what: `a pitch of ${mm(pitch)} lays turns of ${mm(along)} into each other`,
        expected: `a pitch of more than ${mm(along)}, with room for insulation`,
        evidence: ["primary.pitch", "primary.conductor"],
        remedies: [
          {
            says: `pitch: ${mmUp(along * 1.5)}, which leaves half a conductor between turns`,
            edits: [{ path: "primary.pitch", value: mmUp(along * 1.5) }],
          },
        ],
      }),
    );
  }
  if (layers.count > 1 && layers.gap < across) {
    checked.push(
      found({
        rule: "primary-layers-overlap",
        makesNoCoil: true,
        path: "primary.layers.gap",
        what: `layers ${mm(layers.gap)} apart lay conductors of ${mm(across)} into each other`,
        expected: `a gap of more than ${mm(across)}, centre to centre`,
      }),
    );
  }
  const reach = (along * Math.abs(Math.cos(angle)) + across * Math.abs(Math.sin(angle))) / 2;
  const innermost = Math.min(...[...rings(primary), ...unusedRings(primary)].map((ring) => ring.radius));
  if (innermost <= reach) {
    checked.push(
      found({
        rule: "primary-over-axis",
        makesNoCoil: true,
        path: "primary.firstTurnDiameter",
        what: `the innermost turn has a centre line of ${mm(2 * innermost)} and a conductor of ${mm(along)}`,
        expected: `a first turn of more than ${mm(primary.firstTurnDiameter + 2 * (reach - innermost))}`,
      }),
    );
  }
  return checked;
}
