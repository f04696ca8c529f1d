import type { Coil } from "../coil.ts";
import { type Checked, found } from "./check.ts";
import { mm, mmDown, mmUp } from "./lengths.ts";

/** The turns must find room on the length, and the insulation must lie outside the copper. */
export function windingFits({ secondary: { wire, turns, length } }: Coil): readonly Checked[] {
  if (wire.overall < wire.bare) {
    return [
      found({
        rule: "insulation-inside-copper",
        makesNoCoil: true,
        path: "secondary.wire.overall",
        what: `the wire is ${mm(wire.overall)} over its insulation and ${mm(wire.bare)} without`,
        expected: `an overall diameter of at least ${mm(wire.bare)}`,
        remedies: [
          {
            says: "leave `overall` out, for a grade 1 enamel",
            edits: [{ path: "secondary.wire.overall", value: undefined }],
          },
        ],
      }),
    ];
  }
  const needed = turns * wire.overall;
  if (needed <= length * (1 + 1e-9)) return [];
  const fitting = Math.floor(length / wire.overall + 1e-9);
  return [
    found({
      // Turns that share copper are no winding; turns that press on insulation are a drawing that does not add up.
      rule: "winding-does-not-fit",
      makesNoCoil: length / turns < wire.bare,
      path: "secondary.turns",
      what: `${turns} turns of ${mm(wire.overall)} wire need ${mm(needed)}; the winding is ${mm(length)} long`,
      expected: `at most ${fitting} turns, or a length of at least ${mmUp(needed)}`,
      evidence: ["secondary.turns", "secondary.wire.overall", "secondary.length"],
      remedies: [
        ...(fitting >= 3
          ? [{ says: `turns: ${fitting}`, edits: [{ path: "secondary.turns", value: String(fitting) }] }]
          : []),
        { says: `length: ${mmUp(needed)}`, edits: [{ path: "secondary.length", value: mmUp(needed) }] },
        { says: `thinner wire, at most ${mmDown(length / turns)} over its insulation`, edits: [] },
      ],
    }),
  ];
}
