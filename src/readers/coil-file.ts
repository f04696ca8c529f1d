export { type Edited, editCoil } from "./coil-file/edit.ts";
export { readCoil, resolvePlace } from "./coil-file/read.ts";
