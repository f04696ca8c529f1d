/** Before the tests of the build: is it there, and of this source? A missing build is a failure, never a skipped test. */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { buildIsStale } from "../../scripts/build.js";
import { root } from "../../scripts/step.js";

export default function setup(): void {
  for (const made of ["dist/app/index.html", "dist/cli.js", "dist/index.js", "dist/types/index.d.ts"]) {
    if (!existsSync(join(root, made))) throw new Error(`${made} is not there: run npm run build first`);
  }
  if (buildIsStale(root)) throw new Error("the build is older than the source: run npm run build first");
}
