import { defineSurrounding } from "../define.ts";
import { line } from "../shape.ts";

/** An earthed round sheet above the coil. */
export const ceiling = defineSurrounding({
  kind: "ceiling",
  says: "the ceiling, an earthed round sheet centred on the coil's axis",
  keys: {
    height: {
      dimension: "length",
      required: true,
      from: "10 mm",
      example: "3.4 m",
      tolerance: "room",
      says: "above the ground plane",
    },
    radius: {
      dimension: "length",
      from: "10 mm",
      example: "3 m",
      tolerance: "room",
      says: "of the sheet; out to the wall, or twice its height, where absent",
    },
  },
  outline: ({ height, radius }) => [line({ from: { r: 0, z: height }, to: { r: radius ?? 2 * height, z: height } })],
});
