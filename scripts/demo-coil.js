/** Which example a first start shows, and the browser tests drive. Uses nothing but Node. */
import { join } from "node:path";
import { root } from "./step.js";

export const examples = join(root, "examples");

/** A coil for a table: middling in size, with every section of the file. */
export const demoCoil = join(examples, "inkwell.yaml");
