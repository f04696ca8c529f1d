export {
  type BodyEffect,
  bodyEffects,
  bodyThresholds,
  contactLevels,
  highFrequencyPerception,
  reactionWeight,
} from "./body-current.ts";
export { breakoutPlace } from "./breakout-place.ts";
export { asymmetries, type BurstLine, burstLines, chargePerBurst } from "./burst-lines.ts";
export {
  bodyResistance,
  type DischargePulse,
  dischargeFelt,
  dischargePulse,
  excitationRatio,
  fibrillationCharge,
  lapicqueCurrent,
  weissCharge,
} from "./discharge.ts";
export { type Exposed, type FieldKind, type ReferenceLevel, referenceLevels } from "./exposure.ts";
export {
  decidingCandidate,
  type LineCandidate,
  lowestLine,
  practiceLine,
  type Reach,
  reachLine,
  strikeDistance,
} from "./line.ts";
export {
  type Charge,
  electricField,
  emissionLimit,
  farField,
  farthestOver,
  magneticField,
  quasiStaticTo,
  type Turns,
} from "./near-field.ts";
export { acousticShare, crestOfClicks, distanceOfFullDose, soundLevel, timeToFullDose } from "./noise.ts";
export { comparedStore, type StoredComparison, storedIn, waitedFor, waitingTime } from "./stored.ts";
export { skinDepth, type Tissue, tissueAt, tissues } from "./tissue.ts";
