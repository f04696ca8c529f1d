export { type CostTable, costAt, type PulseCosts } from "./costs.ts";
export { dutyAt, greatest, meanAt } from "./course-windows.ts";
export type { BusStore, Course, Load } from "./enforce.ts";
export { type FittedSong, fitSong } from "./fit.ts";
export {
  dutyWindows,
  type HeatLimit,
  type ProgrammeLimits,
  powerWindow,
  rateWindows,
  startsIn,
  timeTolerance,
} from "./limits.ts";
export { equalLoudness, type OnTimeRange, weightingA } from "./loudness.ts";
export { centsBetween, frequencyOf, pitchOf } from "./pitch.ts";
export { type NotePitch, pitchOfNotes } from "./pitch-error.ts";
export { type Fate, fateOf, type Plan, planSong } from "./plan.ts";
export { type Reason, reasons, type Schedule } from "./schedule.ts";
export type { Shaping } from "./trains.ts";
