import { defineSurrounding } from "../define.ts";
import { line } from "../shape.ts";

/** The nearest wall, as an earthed cylinder about the coil: a room of that radius shifts the tune more than one flat wall would. */
export const wall = defineSurrounding({
  kind: "wall",
  says: "the nearest wall, modelled as an earthed cylinder about the coil's axis",
  keys: {
    radius: {
      dimension: "length",
      required: true,
      from: "10 mm",
      example: "2.2 m",
      tolerance: "room",
      says: "distance from the coil's axis",
    },
    height: {
      dimension: "length",
      from: "10 mm",
      example: "2.5 m",
      tolerance: "room",
      says: "of the wall above the ground plane; up to the ceiling, or twice its radius, where absent",
    },
  },
  outline: ({ radius, height }) => [line({ from: { r: radius, z: 0 }, to: { r: radius, z: height ?? 2 * radius } })],
});
