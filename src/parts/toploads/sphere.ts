import { defineTopLoad } from "../define.ts";

/** A single ball on the axis. */
export const sphere = defineTopLoad({
  kind: "sphere",
  says: "a single ball on the axis",
  keys: {
    diameter: {
      dimension: "length",
      required: true,
      from: "1 mm",
      to: "20 m",
      example: "60 mm",
      says: "outside diameter",
    },
    height: { dimension: "length", required: true, example: "240 mm", says: "of its centre above the ground plane" },
  },
  outline: ({ diameter, height }) => [
    { kind: "arc", centre: { r: 0, z: height }, radius: diameter / 2, from: -Math.PI / 2, to: Math.PI / 2 },
  ],
});
