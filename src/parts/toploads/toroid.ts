import { formatQuantity } from "../../units/format.ts";
import { defineTopLoad } from "../define.ts";
import { circle } from "../shape.ts";

/** A ring of round tube about the axis: the usual top load. */
export const toroid = defineTopLoad({
  kind: "toroid",
  says: "a ring of round tube about the axis",
  keys: {
    outerDiameter: {
      dimension: "length",
      required: true,
      from: "5 mm",
      to: "20 m",
      example: "300 mm",
      says: "over all, outside to outside",
    },
    tubeDiameter: {
      dimension: "length",
      required: true,
      from: "1 mm",
      to: "5 m",
      example: "75 mm",
      says: "of the tube it is bent from",
    },
    height: {
      dimension: "length",
      required: true,
      example: "655 mm",
      says: "of its centre plane above the ground plane",
    },
  },
  outline: ({ outerDiameter, tubeDiameter, height }) => [
    circle({ centre: { r: (outerDiameter - tubeDiameter) / 2, z: height }, radius: tubeDiameter / 2 }),
  ],
  impossible: ({ outerDiameter, tubeDiameter }) =>
    tubeDiameter < outerDiameter / 2
      ? undefined
      : {
          key: "tubeDiameter",
          what: `a tube of ${formatQuantity(tubeDiameter, "m", { trim: true })} does not bend into a ring of ${formatQuantity(outerDiameter, "m", { trim: true })} over all`,
          expected: `a tube under ${formatQuantity(outerDiameter / 2, "m", { trim: true })}, half of the outer diameter, so that a hole remains`,
        },
});
