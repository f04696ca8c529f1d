import { defineKeys } from "../../catalogue/keys.ts";

/** The tank capacitor and the leads that close its loop. */
export const tankKeys = defineKeys({
  bank: {
    kind: "record",
    required: true,
    says: "equal capacitors in strings",
    keys: {
      each: {
        dimension: "capacitance",
        required: true,
        from: "1 pF",
        to: "10 mF",
        example: "150 nF ± 5 %",
        says: "one capacitor",
      },
      voltage: {
        dimension: "voltage",
        from: "1 V",
        to: "1 MV",
        example: "2 kV",
        tolerance: "none",
        says: "rating of one capacitor, direct voltage",
      },
      dissipation: {
        dimension: "ratio",
        from: "0",
        to: "1",
        example: "0.0006",
        tolerance: "dissipation",
        says: "loss factor tan δ at the tank's frequency",
      },
      series: { kind: "count", default: 1, from: 1, to: 1000, says: "capacitors in one string" },
      parallel: { kind: "count", default: 1, from: 1, to: 1000, says: "strings side by side" },
    },
  },
  leads: {
    kind: "record",
    always: true,
    says: "from bridge and bank to the primary and back",
    keys: {
      inductance: {
        dimension: "inductance",
        default: "0.3 µH (guessed)",
        from: "0 µH",
        to: "1 mH",
        example: "0.35 µH",
        says: "of the loop without the primary",
      },
      resistance: {
        dimension: "resistance",
        default: "5 mΩ (guessed)",
        from: "0 mΩ",
        to: "100 Ω",
        example: "6 mΩ",
        says: "of leads, joints and clamps at the tank's frequency",
      },
    },
  },
});
