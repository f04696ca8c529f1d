/**
 * `npm start`: sets up what is missing, builds, and serves the app for a coil file: the one named (`npm start -- mine.yaml`)
 * or `my-coil.yaml`, made from the demo coil where it is not there. Uses nothing but Node until the packages are there.
 */
import { copyFileSync, existsSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build, buildIsStale } from "./build.js";
import { demoCoil } from "./demo-coil.js";
import { ensurePackages, requireNode } from "./packages.js";
import { root } from "./step.js";

requireNode();

const workingFolder = process.env["INIT_CWD"] ?? process.cwd();

/**
 * The coil file to serve, made where it is not there. The examples themselves are never served, so never changed.
 * @param {string | undefined} asked
 */
function coilFile(asked) {
  if (asked !== undefined) return resolve(workingFolder, asked);
  const own = join(workingFolder, "my-coil.yaml");
  if (existsSync(own)) {
    console.error(`Coilwright: opening your ${own}.`);
    return own;
  }
  copyFileSync(demoCoil, own);
  console.error(
    `Coilwright: copied the demo coil ${basename(demoCoil)} to ${own}. It is yours to change; the example stays as it is.`,
  );
  return own;
}

if (!(await ensurePackages())) process.exit(1);
if (buildIsStale(root)) {
  console.error("Coilwright: building …");
  if (!(await build({ quiet: true }))) {
    console.error("Coilwright: the build failed; its messages are above.");
    process.exit(1);
  }
}
process.argv.splice(2, process.argv.length, "open", coilFile(process.argv[2]));
await import(pathToFileURL(join(root, "dist", "cli.js")).href);
