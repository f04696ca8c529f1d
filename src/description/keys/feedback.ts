import { defineKeys } from "../../catalogue/keys.ts";

/** What tells the bridge when to switch. */
export const feedbackKeys = defineKeys({
  sense: {
    kind: "oneOf",
    required: true,
    says: "what the driver follows",
    words: {
      primaryCurrent: "the zero crossings of the primary current",
      secondaryCurrent: "the zero crossings of the secondary's base current",
    },
    cases: {
      fixedFrequency: {
        dimension: "frequency",
        from: "100 Hz",
        to: "20 MHz",
        example: "210 kHz",
        says: "an oscillator that follows nothing",
      },
    },
  },
  transformer: {
    kind: "record",
    says: "the current transformer",
    keys: {
      ratio: { kind: "number", required: true, from: 1, to: 100000, says: "primary to secondary current" },
      burden: {
        dimension: "resistance",
        required: true,
        from: "0.01 Ω",
        to: "10 kΩ",
        example: "5.1 Ω",
        says: "across its secondary",
      },
    },
  },
  delay: {
    dimension: "time",
    required: true,
    from: "0 ns",
    to: "100 µs",
    example: "420 ns",
    says: "from the crossing to the switch",
  },
  lead: {
    dimension: "time",
    default: "0 ns (drawn)",
    from: "0 ns",
    to: "100 µs",
    example: "350 ns",
    says: "compensation that acts against the delay",
  },
  overcurrent: {
    dimension: "current",
    from: "0.1 A",
    to: "50 kA",
    example: "180 A",
    says: "primary current at which the burst is cut short",
  },
});
