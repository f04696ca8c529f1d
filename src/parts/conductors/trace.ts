import { defineConductor } from "../define.ts";
import { line } from "../shape.ts";

/** A printed trace or a strip of foil that lies in the surface of the winding: in the plane of a flat spiral, on the mantle of a helix. */
export const trace = defineConductor({
  kind: "trace",
  says: "printed trace or flat strip",
  key: {
    kind: "record",
    says: "width and thickness of a printed trace or flat strip",
    inline: { order: ["width", "thickness"], between: " x ", example: "6 mm x 0.07 mm" },
    keys: {
      width: {
        dimension: "length",
        required: true,
        from: "0.05 mm",
        to: "500 mm",
        example: "6 mm",
        tolerance: "wire",
        says: "in the surface of the winding",
      },
      thickness: {
        dimension: "length",
        required: true,
        from: "5 µm",
        to: "20 mm",
        example: "0.07 mm",
        tolerance: "wire",
        says: "across the surface of the winding",
      },
    },
  },
  // A sheet without thickness: charge gathers at its edges, which is what the field needs to know of it.
  outline: ({ width }, { radius, height, angle = 0 }) => {
    const [r, z] = [(width / 2) * Math.cos(angle), (width / 2) * Math.sin(angle)];
    return [line({ from: { r: radius - r, z: height - z }, to: { r: radius + r, z: height + z } })];
  },
  extent: ({ width, thickness }) => ({ along: width, across: thickness }),
});
