import { formatQuantity } from "../../units/format.ts";
import { defineSurrounding } from "../define.ts";
import { capsule } from "./capsule.ts";

/** An upright metal rod with round ends. */
export const rod = defineSurrounding({
  kind: "rod",
  says: "an upright metal rod with round ends",
  keys: {
    at: {
      dimension: "length",
      required: true,
      from: "1 mm",
      example: "0.9 m",
      tolerance: "room",
      says: "distance from the coil's axis to the rod's",
    },
    height: {
      dimension: "length",
      required: true,
      from: "2 mm",
      to: "30 m",
      example: "1.1 m",
      tolerance: "room",
      says: "of the tip above the ground plane",
    },
    diameter: { dimension: "length", required: true, from: "0.5 mm", to: "2 m", example: "12 mm", says: "of the rod" },
    foot: {
      dimension: "length",
      default: "2 mm (guessed)",
      from: "0.1 mm",
      to: "20 m",
      example: "2 mm",
      tolerance: "room",
      says: "height of its lower end above the ground plane",
    },
    earthed: { kind: "flag", default: true, says: "whether it is bonded to the coil's earth" },
  },
  outline: ({ height, diameter, foot }) => capsule({ radius: diameter / 2, foot, top: height }),
  impossible: ({ height, diameter, foot }) =>
    height - foot >= diameter
      ? undefined
      : {
          key: "height",
          what: `a rod of ${formatQuantity(diameter, "m", { trim: true })} with its foot at ${formatQuantity(foot, "m", { trim: true })} does not end at ${formatQuantity(height, "m", { trim: true })}`,
          expected: `a height of at least ${formatQuantity(foot + diameter, "m", { trim: true })}`,
        },
});
