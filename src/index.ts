/** The library's front door: a coil file or a plain coil in, figures, findings and explanations out. */

export * from "./catalogue/index.ts";
export type * from "./description/coil.ts";
export type { CoilFile } from "./description/coil-file.ts";
export type { Origin, Provenance, Provenances } from "./description/provenance.ts";
export type { Note, Song, Turn, Voice } from "./description/song.ts";
export {
  assess,
  type Context,
  type JudgedBursts,
  type Judgement,
  judgedBursts,
  type Room,
  type Rule,
  rules,
} from "./findings/index.ts";
export {
  type CaptureReading,
  type CaptureSettings,
  type CaptureSource,
  type ColumnDialect,
  type ColumnSetting,
  type ColumnUse,
  type ConverterCodes,
  type Dialect,
  type Progress,
  type Reason,
  readCapture,
  readCaptureInPieces,
  type Watch,
  writeRecord,
} from "./readers/capture.ts";
export {
  coilJsonSchema,
  type Edited,
  editCoil,
  formatCoil,
  type Migrated,
  migrateCoil,
  readCoil,
  resolvePlace,
} from "./readers/coil-file.ts";
export {
  type MidiFile,
  readNotation,
  readSong,
  type SongReading,
  writeMidi,
  writeNotation,
} from "./readers/song.ts";
export { bringup } from "./workbench/bringup.ts";
export type { BringUp } from "./workbench/bringup-contract.ts";
export type { BurstSetting, BurstStudy, EnergyPart, Waveforms } from "./workbench/burst-contract.ts";
export { study } from "./workbench/burst-stage.ts";
export type {
  Detuning,
  FieldMap,
  ModeProfile,
  PeakField,
  PoleTrack,
  Solution,
} from "./workbench/contract.ts";
export { type Contribution, type Doubt, type Doubts, intervals } from "./workbench/doubts.ts";
export { type Explanation, explain } from "./workbench/explain.ts";
export { type MatchOptions, type MatchRecord, match } from "./workbench/match.ts";
export { timeRecord } from "./workbench/match-capture.ts";
export type { Match } from "./workbench/match-contract.ts";
export { planProgramme } from "./workbench/programme.ts";
export type {
  FitStep,
  ProgrammeHistory,
  ProgrammeOptions,
  ProgrammeStudy,
  ReasonTally,
  VoiceTally,
} from "./workbench/programme-contract.ts";
export { type Sensitivity, type SensitivityOptions, sensitivities } from "./workbench/sensitivities.ts";
export { solve } from "./workbench/solve.ts";
export { standoff } from "./workbench/standoff.ts";
export { showDayChecklist } from "./workbench/standoff-checklist.ts";
export type { ChecklistPart, Standoff, StandoffBursts, StandoffProgramme } from "./workbench/standoff-contract.ts";
export { blockingHazards } from "./workbench/standoff-hazards.ts";
