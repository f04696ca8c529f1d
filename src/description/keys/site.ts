import { defineKeys } from "../../catalogue/keys.ts";
import { surroundings } from "../../parts/index.ts";

/** The room and the air around the coil. */
export const siteKeys = defineKeys({
  air: {
    kind: "record",
    always: true,
    says: "the air: it decides where sparks begin",
    keys: {
      temperature: {
        dimension: "temperature",
        default: "20 °C (guessed)",
        from: "-40 °C",
        to: "60 °C",
        example: "20 °C",
        says: "of the air and, where nothing else is said, of the copper",
      },
      pressure: {
        dimension: "pressure",
        default: "1013.25 hPa (guessed)",
        from: "500 hPa",
        to: "1100 hPa",
        example: "1013 hPa",
        says: "at the site, not reduced to sea level",
      },
      humidity: { dimension: "ratio", default: "50 % (guessed)", example: "50 %", says: "relative" },
    },
  },
  ceiling: {
    kind: "record",
    says: surroundings.ceiling.says,
    inline: { order: ["height"], between: " ", example: "3.4 m" },
    keys: surroundings.ceiling.keys,
  },
  wall: {
    kind: "record",
    says: surroundings.wall.says,
    inline: { order: ["radius"], between: " ", example: "2.2 m" },
    keys: surroundings.wall.keys,
  },
  people: {
    kind: "list",
    default: [],
    most: 20,
    says: "people standing near the coil, for the shift of the tune; listing somebody here grants no permission to stand there",
    of: { kind: "record", says: surroundings.person.says, keys: surroundings.person.keys },
  },
  objects: {
    kind: "list",
    default: [],
    most: 50,
    says: "metal things in the room",
    of: {
      kind: "record",
      says: "one thing",
      keys: {
        kind: { kind: "choice", required: true, options: { rod: surroundings.rod.says }, says: "what it is" },
        ...surroundings.rod.keys,
      },
    },
  },
});
