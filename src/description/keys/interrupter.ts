import { defineKeys } from "../../catalogue/keys.ts";

/** How long and how often the coil is driven, and what its hardware never exceeds. */
export const interrupterKeys = defineKeys({
  onTime: { dimension: "time", required: true, from: "0.1 µs", to: "100 ms", example: "110 µs", says: "of one burst" },
  rate: {
    dimension: "frequency",
    required: true,
    from: "0.01 Hz",
    to: "50 kHz",
    example: "180 Hz",
    says: "bursts in a second",
  },
  limits: {
    kind: "record",
    says: "hard limits of the interrupter; they protect parts, not people",
    keys: {
      onTime: {
        dimension: "time",
        required: true,
        from: "0.1 µs",
        to: "100 ms",
        example: "150 µs",
        tolerance: "none",
        says: "longest burst",
      },
      duty: {
        dimension: "ratio",
        required: true,
        from: "0.001 %",
        to: "100 %",
        example: "4 %",
        tolerance: "none",
        says: "greatest on-time share",
      },
      rate: {
        dimension: "frequency",
        required: true,
        from: "0.01 Hz",
        to: "50 kHz",
        example: "1.2 kHz",
        tolerance: "none",
        says: "greatest repetition rate",
      },
      gap: {
        dimension: "time",
        required: true,
        from: "0 µs",
        to: "1 s",
        example: "250 µs",
        tolerance: "none",
        says: "shortest pause between bursts",
      },
    },
  },
});
