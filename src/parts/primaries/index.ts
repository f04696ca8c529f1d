export { rings, unusedRings, type WoundSize, wound } from "./wound.ts";
