export type * from "./coil.ts";
export type { CoilFile } from "./coil-file.ts";
export { coilKey, coilKeys, currentFormat } from "./coil-keys.ts";
export type { Provenance, Provenances } from "./provenance.ts";
export { type DefaultTolerance, defaultTolerance, defaultTolerances } from "./tolerances.ts";
