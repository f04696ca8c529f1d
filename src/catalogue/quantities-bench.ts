/** The figures that a record from the bench gives by itself. Names and units stay. */
import { autoDigits as auto, plainDigits as plain, type Quantity } from "./quantity.ts";

/** In the order of the ledger. */
export const benchQuantities: readonly Quantity[] = [
  {
    id: "capture.repetitionRate",
    unit: "Hz",
    name: "repetition rate",
    group: "record",
    definition: "bursts a second, from the starts of the bursts in the record",
    formula: "slope of the line through start against number, turned over",
    display: auto(6),
  },
  {
    id: "capture.jitter",
    unit: "s",
    name: "jitter of the starts",
    group: "record",
    definition: "standard deviation of the bursts' starts about even spacing",
    formula: "scatter of the starts about the line through them",
    display: auto(2),
  },
  {
    id: "capture.onTime",
    unit: "s",
    name: "on-time",
    group: "record",
    definition: "time from the start to the end of the drive, ring-down not counted",
    formula: "from the gate or the bridge where the record has it, else from where the signal is no free decay",
    display: auto(4),
  },
  {
    id: "capture.carrier",
    unit: "Hz",
    name: "carrier",
    group: "record",
    definition:
      "mean frequency at which the bridge commutates over the burst, as `burst.frequency`; of a free decay its strongest pole",
    formula:
      "(commutations − 1) / (2 × time from the first to the last), each read from the bridge or from the whole burst",
    display: auto(5),
  },
  {
    id: "capture.poles.lower",
    unit: "Hz",
    name: "lower pole",
    group: "record",
    definition: "lower of the two frequencies at which tank and secondary ring together",
    formula:
      "two damped sinusoids fitted together to the free decay; where it has not both, the pair that explains the driven current",
    display: auto(5),
  },
  {
    id: "capture.poles.upper",
    unit: "Hz",
    name: "upper pole",
    group: "record",
    definition: "upper of the two frequencies at which tank and secondary ring together",
    formula:
      "two damped sinusoids fitted together to the free decay; where it has not both, the pair that explains the driven current",
    display: auto(5),
  },
  {
    id: "capture.beat",
    unit: "Hz",
    name: "beat",
    group: "record",
    definition: "rate at which the energy goes to and fro between the two poles",
    formula: "upper pole − lower pole",
    display: auto(4),
  },
  {
    id: "capture.q",
    unit: "1",
    name: "quality",
    group: "record",
    definition: "quality of the ring-down, of the stronger pole where there are two",
    formula: "π × frequency × decay time",
    display: plain("", 3),
  },
  {
    id: "capture.decayTime",
    unit: "s",
    name: "decay time",
    group: "record",
    definition: "time in which the amplitude of the ring-down falls to 1/e, of the stronger pole where there are two",
    formula: "from the damped sinusoids fitted to the free decay",
    display: auto(4),
  },
];
