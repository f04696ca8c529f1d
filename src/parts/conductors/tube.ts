import { defineConductor } from "../define.ts";
import { circle } from "../shape.ts";

/** Round tube: the current runs on its outside, so it counts as a full round conductor. */
export const tube = defineConductor({
  kind: "tube",
  says: "round tube",
  key: {
    dimension: "length",
    from: "0.2 mm",
    to: "200 mm",
    example: "8 mm",
    says: "outside diameter of round tube",
  },
  outline: (diameter, { radius, height }) => [circle({ centre: { r: radius, z: height }, radius: diameter / 2 })],
  extent: (diameter) => ({ along: diameter, across: diameter }),
});
