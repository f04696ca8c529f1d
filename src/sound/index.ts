export { type Click, clickOf, type Spark, usualSpark } from "./click.ts";
export { type GateError, type GateSettings, type GateSignal, gateOf, gateRates } from "./gate.ts";
export { type Preview, type PreviewSettings, previewOf } from "./preview.ts";
export type { PulseTrain } from "./train.ts";
export { type Coding, type WavShape, wavFile, wavLength } from "./wav.ts";
