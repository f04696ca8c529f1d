import { defineKeys } from "../../catalogue/keys.ts";

/** What was learnt of this coil's streamer from lengths that somebody saw; the table in docs/burst.md stands in for what is absent. */
export const streamerKeys = defineKeys({
  energyPerMetre: {
    dimension: "energy",
    from: "0.1 J",
    to: "500 J",
    example: "9 J ± 3 J (measured)",
    says: "energy that keeps a metre of hot channel",
  },
  voltagePerMetre: {
    dimension: "voltage",
    from: "5 kV",
    to: "2 MV",
    example: "110 kV ± 40 kV (measured)",
    says: "voltage of the top that holds a metre of hot channel",
  },
  memory: {
    dimension: "time",
    from: "0.1 ms",
    to: "1 s",
    example: "16 ms ± 8 ms (measured)",
    says: "time in which a channel cools to a third; it is used again from burst to burst",
  },
});
