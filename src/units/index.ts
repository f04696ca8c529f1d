export { closestOf, editDistance } from "./closest.ts";
export { type Dimension, type DimensionEntry, dimensions, type SiUnitOf } from "./dimension.ts";
export {
  type FormatOptions,
  type FormattedParts,
  formatParts,
  formatQuantity,
  formatRange,
  type LengthStyle,
} from "./format.ts";
export { numberOf, writeNumber } from "./number.ts";
export {
  absoluteTolerance,
  canonicalQuantity,
  type Origin,
  origins,
  type Quantity,
  type QuantityProblem,
  type QuantityReading,
  readQuantity,
  type Tolerance,
  writeQuantity,
} from "./quantity.ts";
export type * from "./si.ts";
export { findUnit, type Unit, unitSpellings } from "./unit.ts";
export { diameterOfGauge, gaugeOfDiameter, readGauge, writeGauge } from "./wire-gauge.ts";
