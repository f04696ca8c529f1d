import { formatQuantity } from "../../units/format.ts";
import { defineTopLoad } from "../define.ts";
import { line, type Piece } from "../shape.ts";

/** An upright can with rounded edges. */
export const cylinder = defineTopLoad({
  kind: "cylinder",
  says: "an upright can with rounded edges",
  keys: {
    diameter: {
      dimension: "length",
      required: true,
      from: "2 mm",
      to: "20 m",
      example: "120 mm",
      says: "outside diameter",
    },
    length: {
      dimension: "length",
      required: true,
      from: "1 mm",
      to: "20 m",
      example: "80 mm",
      says: "from flat to flat",
    },
    edgeRadius: {
      dimension: "length",
      default: "5 mm (guessed)",
      from: "0.1 mm",
      to: "10 m",
      example: "5 mm",
      says: "of the rounding between flat and wall",
    },
    height: { dimension: "length", required: true, example: "500 mm", says: "of its middle above the ground plane" },
  },
  outline: ({ diameter, length, edgeRadius, height }) => {
    const wall = diameter / 2;
    const flat = wall - edgeRadius;
    const [bottom, top] = [height - length / 2, height + length / 2];
    const pieces: Piece[] = [
      line({ from: { r: 0, z: bottom }, to: { r: flat, z: bottom } }),
      { kind: "arc", centre: { r: flat, z: bottom + edgeRadius }, radius: edgeRadius, from: -Math.PI / 2, to: 0 },
      line({ from: { r: wall, z: bottom + edgeRadius }, to: { r: wall, z: top - edgeRadius } }),
      { kind: "arc", centre: { r: flat, z: top - edgeRadius }, radius: edgeRadius, from: 0, to: Math.PI / 2 },
      line({ from: { r: flat, z: top }, to: { r: 0, z: top } }),
    ];
    // Fully rounded ends leave no flats, and a length of two radii leaves no wall.
    return pieces.filter((p) => p.kind === "arc" || Math.hypot(p.to.r - p.from.r, p.to.z - p.from.z) > 1e-9 * diameter);
  },
  impossible: ({ diameter, length, edgeRadius }) => {
    const greatest = Math.min(diameter, length) / 2;
    return edgeRadius <= greatest
      ? undefined
      : {
          key: "edgeRadius",
          what: `edges of ${formatQuantity(edgeRadius, "m", { trim: true })} do not fit on a can of ${formatQuantity(diameter, "m", { trim: true })} by ${formatQuantity(length, "m", { trim: true })}`,
          expected: `an edge radius of at most ${formatQuantity(greatest, "m", { trim: true })}`,
        };
  },
});
