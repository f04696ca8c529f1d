import { formatQuantity } from "../../units/format.ts";
import { defineTopLoad } from "../define.ts";
import { line } from "../shape.ts";

/** A flat round plate with a half-round rim. */
export const disc = defineTopLoad({
  kind: "disc",
  says: "a flat round plate with a half-round rim",
  keys: {
    diameter: {
      dimension: "length",
      required: true,
      from: "2 mm",
      to: "20 m",
      example: "200 mm",
      says: "over the rim",
    },
    thickness: {
      dimension: "length",
      default: "2 mm (guessed)",
      from: "0.05 mm",
      to: "1 m",
      example: "2 mm",
      says: "of the plate; its rim is a half circle of this diameter",
    },
    height: { dimension: "length", required: true, example: "500 mm", says: "of its middle above the ground plane" },
  },
  outline: ({ diameter, thickness, height }) => {
    const rim = thickness / 2;
    const edge = diameter / 2 - rim;
    return [
      line({ from: { r: 0, z: height - rim }, to: { r: edge, z: height - rim } }),
      { kind: "arc", centre: { r: edge, z: height }, radius: rim, from: -Math.PI / 2, to: Math.PI / 2 },
      line({ from: { r: edge, z: height + rim }, to: { r: 0, z: height + rim } }),
    ];
  },
  impossible: ({ diameter, thickness }) =>
    thickness < diameter
      ? undefined
      : {
          key: "thickness",
          what: `a plate ${formatQuantity(thickness, "m", { trim: true })} thick is not a disc of ${formatQuantity(diameter, "m", { trim: true })}`,
          expected: `a thickness under the diameter of ${formatQuantity(diameter, "m", { trim: true })}`,
        },
});
