import { defineConductor } from "../define.ts";
import { circle } from "../shape.ts";

/** Solid or stranded round wire, by the diameter of its copper. */
export const wire = defineConductor({
  kind: "wire",
  says: "round wire",
  key: {
    dimension: "length",
    from: "0.05 mm",
    to: "100 mm",
    example: "4 mm",
    tolerance: "wire",
    says: "copper diameter of round wire, without insulation; `AWG 10` is accepted",
  },
  outline: (diameter, { radius, height }) => [circle({ centre: { r: radius, z: height }, radius: diameter / 2 })],
  extent: (diameter) => ({ along: diameter, across: diameter }),
});
