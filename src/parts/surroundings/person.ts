import { formatQuantity } from "../../units/format.ts";
import { defineSurrounding } from "../define.ts";
import { capsule } from "./capsule.ts";

/** A standing person as an earthed upright capsule: good for the shift of the tune, not for the person. */
export const person = defineSurrounding({
  kind: "person",
  says: "a person standing near the coil, an earthed upright capsule",
  keys: {
    at: {
      dimension: "length",
      required: true,
      from: "1 mm",
      example: "3.5 m",
      tolerance: "room",
      says: "distance from the coil's axis to the person's",
    },
    height: {
      dimension: "length",
      required: true,
      from: "100 mm",
      to: "5 m",
      example: "1.75 m",
      tolerance: "room",
      says: "of the crown above the ground plane",
    },
    radius: {
      dimension: "length",
      default: "150 mm (guessed)",
      from: "10 mm",
      to: "1 m",
      example: "150 mm",
      tolerance: "room",
      says: "of the capsule",
    },
    foot: {
      dimension: "length",
      default: "20 mm (guessed)",
      from: "0.1 mm",
      to: "2 m",
      example: "20 mm",
      tolerance: "room",
      says: "height of the soles above the ground plane",
    },
  },
  outline: ({ height, radius, foot }) => capsule({ radius, foot, top: height }),
  impossible: ({ height, radius, foot }) =>
    height - foot >= 2 * radius
      ? undefined
      : {
          key: "height",
          what: `a person ${formatQuantity(height, "m", { trim: true })} tall is wider than tall: the capsule of this radius needs ${formatQuantity(foot + 2 * radius, "m", { trim: true })}`,
          expected: `a height of at least ${formatQuantity(foot + 2 * radius, "m", { trim: true })}, or a smaller radius`,
        },
});
