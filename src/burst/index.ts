export { type BurstOptions, simulateBurst } from "./burst.ts";
export type { GateChange, Pulse } from "./driver.ts";
export type { EnvelopePoint } from "./envelope.ts";
export type { BurstLedger, BurstRemark, BurstResult } from "./result.ts";
export type { Reached, SolveLimits } from "./solve.ts";
export { type BurstMemory, memoryAtRest, rechargedBus, rest, runBurst, type TrainPulse } from "./train.ts";
export type { WaveformSamples, Waveforms } from "./waveforms.ts";
