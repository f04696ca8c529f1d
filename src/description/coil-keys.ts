/** Every key of the coil file, format 1, in the order in which a new file is written. */
import { defineKeys, type RecordKey, type RecordValue } from "../catalogue/keys.ts";
import { topLoadCases } from "../parts/index.ts";
import { bridgeKeys } from "./keys/bridge.ts";
import { feedbackKeys } from "./keys/feedback.ts";
import { interrupterKeys } from "./keys/interrupter.ts";
import { primaryKeys } from "./keys/primary.ts";
import { secondaryKeys } from "./keys/secondary.ts";
import { showKeys } from "./keys/show.ts";
import { siteKeys } from "./keys/site.ts";
import { streamerKeys } from "./keys/streamer.ts";
import { supplyKeys } from "./keys/supply.ts";
import { tankKeys } from "./keys/tank.ts";

/** The number after `coilwright:` that this version reads and writes. */
export const currentFormat = 1;

export const coilKeys = defineKeys({
  coilwright: {
    kind: "count",
    required: true,
    from: currentFormat,
    to: currentFormat,
    only: [currentFormat],
    says: "format of this file",
  },
  name: { kind: "text", default: "Unnamed coil", longest: 80, says: "what the coil is called on screens and sheets" },
  site: { kind: "record", always: true, says: "the room and the air", keys: siteKeys },
  secondary: { kind: "record", required: true, says: "the winding that rings", keys: secondaryKeys },
  topload: {
    kind: "list",
    default: [],
    most: 12,
    says: "conductors on top of the winding, all joined to its upper end",
    of: { kind: "oneOf", says: "one top load", cases: topLoadCases },
  },
  primary: { kind: "record", says: "the winding that drives it", keys: primaryKeys },
  tank: { kind: "record", says: "the capacitor that rings with the primary", keys: tankKeys },
  bridge: { kind: "record", says: "the switches", keys: bridgeKeys },
  supply: { kind: "record", says: "from the mains to the bus", keys: supplyKeys },
  feedback: {
    kind: "record",
    says: "what tells the bridge when to switch",
    keys: feedbackKeys,
    also: { fixedFrequency: "sense" },
  },
  interrupter: { kind: "record", says: "how long and how often", keys: interrupterKeys },
  show: { kind: "record", says: "the coil among people: who stands where, and what was acknowledged", keys: showKeys },
  streamer: {
    kind: "record",
    says: "what lengths seen of this coil say of its streamer; match --observed-length writes it",
    keys: streamerKeys,
  },
  aim: {
    kind: "oneOf",
    says: "what the tune is compared with; a streamer of the predicted length where absent",
    cases: {
      streamer: {
        dimension: "length",
        from: "1 mm",
        to: "20 m",
        example: "600 mm",
        tolerance: "none",
        says: "length of the streamer that loads the secondary",
      },
      ratio: {
        dimension: "ratio",
        from: "0.5",
        to: "1.5",
        example: "0.95",
        tolerance: "none",
        says: "tank frequency over the secondary's first mode",
      },
    },
  },
});

/** The whole file as one record. */
export const coilKey = { kind: "record", required: true, says: "a coil", keys: coilKeys } as const satisfies RecordKey;

/** What the keys say a coil is; `Coil` spells out the same for people to read. */
export type CoilByKeys = RecordValue<typeof coilKeys>;
