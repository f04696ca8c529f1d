export { checkCoil } from "./all.ts";
