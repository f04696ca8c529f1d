export { trace } from "./trace.ts";
export { tube } from "./tube.ts";
export { wire } from "./wire.ts";
