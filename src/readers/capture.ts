export type {
  CaptureReading,
  CaptureSettings,
  ColumnDialect,
  ColumnSetting,
  ColumnUse,
  Dialect,
  Progress,
  Reason,
} from "./capture/dialect.ts";
export { writeRecord } from "./capture/json.ts";
export { readCapture, readCaptureInPieces } from "./capture/read.ts";
