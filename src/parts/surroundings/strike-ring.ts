import { formatQuantity } from "../../units/format.ts";
import { defineSurrounding } from "../define.ts";
import { circle } from "../shape.ts";

/** The ring of tube above the primary that takes strikes instead of it. */
export const strikeRing = defineSurrounding({
  kind: "strikeRing",
  says: "a ring of tube above the primary that takes strikes instead of it",
  keys: {
    diameter: {
      dimension: "length",
      required: true,
      from: "10 mm",
      to: "20 m",
      example: "420 mm",
      says: "of the ring's centre line",
    },
    tube: {
      dimension: "length",
      required: true,
      from: "0.5 mm",
      to: "200 mm",
      example: "8 mm",
      says: "outside diameter of its tube",
    },
    height: {
      dimension: "length",
      required: true,
      example: "215 mm",
      says: "of its centre line above the ground plane",
    },
    earthed: { kind: "flag", default: true, says: "whether it is bonded to earth" },
    closed: {
      kind: "flag",
      default: false,
      says: "whether it is a full circle: a shorted turn; a split ring carries no current",
    },
  },
  outline: ({ diameter, tube, height }) => [circle({ centre: { r: diameter / 2, z: height }, radius: tube / 2 })],
  impossible: ({ diameter, tube }) =>
    tube < diameter
      ? undefined
      : {
          key: "tube",
          what: `a tube of ${formatQuantity(tube, "m", { trim: true })} does not bend into a ring of ${formatQuantity(diameter, "m", { trim: true })}`,
          expected: `a tube under the ring's diameter of ${formatQuantity(diameter, "m", { trim: true })}`,
        },
});
