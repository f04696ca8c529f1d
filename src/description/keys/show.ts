import { defineKeys } from "../../catalogue/keys.ts";
import { hazards } from "../hazards.ts";

const at = {
  dimension: "length",
  required: true,
  from: "0 mm",
  to: "100 m",
  example: "4 m",
  tolerance: "room",
  says: "distance from the coil's axis, along the floor",
} as const;
const bearing = {
  dimension: "angle",
  default: "0° (guessed)",
  from: "0°",
  to: "360°",
  example: "180°",
  tolerance: "none",
  says: "seen from above, anticlockwise from where the audience stands",
} as const;
const place = (says: string) => ({ kind: "record", says, keys: { at, bearing } }) as const;

/** The coil among people: what stand-off is judged by. Nothing here is a permission. */
export const showKeys = defineKeys({
  barrier: {
    dimension: "length",
    from: "0 mm",
    to: "100 m",
    example: "6 m",
    tolerance: "room",
    says: "distance of the barrier for bystanders from the coil's axis",
  },
  duration: {
    dimension: "time",
    from: "1 s",
    to: "86400 s",
    example: "900 s",
    tolerance: "none",
    says: "of the sparks in one day, for the dose of noise",
  },
  duty: {
    dimension: "ratio",
    from: "0.0001 %",
    to: "100 %",
    example: "1.5 %",
    tolerance: "none",
    says: "mean on-time share of what is played; the interrupter's setting where absent",
  },
  room: {
    kind: "record",
    says: "the room's floor, the coil in its middle unless said otherwise",
    keys: {
      width: {
        dimension: "length",
        required: true,
        from: "500 mm",
        to: "1000 m",
        example: "9 m",
        tolerance: "room",
        says: "across the line from coil to audience",
      },
      depth: {
        dimension: "length",
        required: true,
        from: "500 mm",
        to: "1000 m",
        example: "14 m",
        tolerance: "room",
        says: "along that line",
      },
      behind: {
        dimension: "length",
        from: "0 mm",
        to: "1000 m",
        example: "3 m",
        tolerance: "room",
        says: "of it behind the coil's axis; half the depth where absent",
      },
      airing: {
        kind: "choice",
        required: true,
        options: {
          open: "in the open, or a whole side open",
          changed: "fans or windows change the air all the time",
          closed: "no air is changed while it runs",
        },
        says: "how ozone and nitrogen oxides leave",
      },
    },
  },
  operator: place("who holds the stop"),
  second: place("the second person, at the plug or breaker, with nothing else to do"),
  breaker: place("the breaker or plug that cuts the mains"),
  deadMan: {
    kind: "flag",
    default: false,
    says: "whether the operator holds a stop that cuts the coil when it is let go",
  },
  exit: place("the way out"),
  earth: {
    kind: "record",
    says: "the coil's own earth rod or plate",
    keys: {
      at,
      bearing,
      lead: {
        dimension: "length",
        from: "0 mm",
        to: "1000 m",
        example: "5 m",
        tolerance: "room",
        says: "length of its lead, short and wide",
      },
    },
  },
  noise: {
    kind: "record",
    says: "a level measured at this coil, which takes the place of the estimate",
    keys: {
      level: { kind: "number", required: true, from: 30, to: 150, says: "dB(A), mean while it plays" },
      at: { ...at, from: "100 mm" },
    },
  },
  acknowledged: {
    kind: "list",
    default: [],
    most: Object.keys(hazards).length,
    says: "hazards that whoever runs the show has read and taken on, each by name; without all of them no show sheet is printed",
    of: { kind: "choice", options: hazards, says: "one hazard" },
  },
});
