export { checkCoil } from "./all.ts";
export type { Checked } from "./check.ts";
