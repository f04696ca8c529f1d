export type {
  CaptureReading,
  CaptureSettings,
  ColumnDialect,
  ColumnSetting,
  ColumnUse,
  ConverterCodes,
  Dialect,
  Progress,
  Reason,
  Watch,
} from "./capture/dialect.ts";
export { writeRecord } from "./capture/json.ts";
export { readCapture, readCaptureInPieces } from "./capture/read.ts";
export { dialectSaid, sweepSaid } from "./capture/said.ts";
export type { CaptureSource } from "./capture/source.ts";
export { frequencyColumn, sweepFindings, sweepOf, sweepSettings } from "./capture/sweep.ts";
