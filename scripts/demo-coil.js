/** Which example a first start shows, and the browser tests drive. Uses nothing but Node. */
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "./step.js";

export const examples = join(root, "examples");

/** The path of the table coil, or of whatever coil comes first; undefined where there is none. */
export function demoCoil() {
  const names = existsSync(examples) ? readdirSync(examples).filter((name) => /\.ya?ml$/.test(name)) : [];
  const demo = names.find((name) => name.startsWith("table")) ?? names.sort()[0];
  return demo === undefined ? undefined : join(examples, demo);
}
