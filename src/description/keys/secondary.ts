import { defineKeys } from "../../catalogue/keys.ts";
import { overallOfEnamelledWire } from "../enamel.ts";

/** The winding. */
export const secondaryKeys = defineKeys({
  former: {
    kind: "record",
    required: true,
    says: "the tube it is wound on",
    keys: {
      outerDiameter: {
        dimension: "length",
        required: true,
        from: "2 mm",
        to: "10 m",
        example: "110 mm ± 0.3 mm (measured)",
        says: "under the wire",
      },
    },
  },
  wire: {
    kind: "record",
    required: true,
    says: "enamelled or insulated round wire; a single value is the bare diameter",
    inline: { order: ["bare"], between: " ", example: "AWG 28" },
    keys: {
      bare: {
        dimension: "length",
        required: true,
        from: "0.02 mm",
        to: "20 mm",
        example: "0.315 mm",
        tolerance: "wire",
        says: "diameter of the copper; `AWG 28` is accepted",
      },
      overall: {
        dimension: "length",
        from: "0.02 mm",
        to: "50 mm",
        example: "0.352 mm (datasheet)",
        tolerance: "wire",
        derived: {
          from: "bare",
          by: overallOfEnamelledWire,
          says: "a grade 1 enamel on the bare wire",
          origin: "guessed",
        },
        says: "diameter over the insulation",
      },
    },
  },
  turns: { kind: "count", required: true, from: 3, to: 20000, says: "in one layer" },
  length: {
    dimension: "length",
    required: true,
    from: "1 mm",
    to: "20 m",
    example: "420 mm",
    says: "of the winding: first turn's centre to last turn's centre plus one pitch",
  },
  baseHeight: {
    dimension: "length",
    required: true,
    from: "0 mm",
    example: "180 mm",
    says: "of the winding's lower end above the ground plane",
  },
  coating: {
    kind: "record",
    says: "varnish over the winding",
    keys: {
      material: { kind: "text", required: true, longest: 60, says: "what it is, e.g. polyurethane" },
      thickness: {
        dimension: "length",
        required: true,
        from: "1 µm",
        to: "50 mm",
        example: "0.4 mm",
        says: "over the wire",
      },
    },
  },
});
