export { type Edited, editCoil } from "./coil-file/edit.ts";
export { formatCoil, type Migrated, type MigrationStep, migrateCoil } from "./coil-file/format.ts";
export { readCoil, resolvePlace } from "./coil-file/read.ts";
export { coilJsonSchema } from "./coil-file/schema.ts";
