export { readCoil, resolvePlace } from "./coil-file/read.ts";
