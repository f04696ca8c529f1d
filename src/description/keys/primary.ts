import { defineKeys } from "../../catalogue/keys.ts";
import { surroundings, wound } from "../../parts/index.ts";

/** The primary winding and the ring that guards it. */
export const primaryKeys = defineKeys({
  ...wound.keys,
  strikeRing: { kind: "record", says: surroundings.strikeRing.says, keys: surroundings.strikeRing.keys },
});
