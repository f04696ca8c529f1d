/** Builds the app, the library, the command line and the server into `dist/`. Uses nothing but Node until it builds. */
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { reasonToInstall } from "./packages.js";
import { root, runTool } from "./step.js";

/** What a build is made from. */
const sources = ["src", "index.html", "package-lock.json", "tsconfig.json", "vite.config.ts", "vite.node.config.ts"];
/** Says when a build began, so that a change made during the build counts as newer. */
const stamp = "built.json";

/**
 * The newest change under a path, folders included: a file that was taken away changes its folder.
 * @param {string} path
 * @returns {number} milliseconds
 */
function newestChange(path) {
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  return Math.max(found.mtimeMs, ...readdirSync(path).map((name) => newestChange(join(path, name))));
}

/**
 * Whether `dist/` is missing or older than what it is made from.
 * @param {string} folder the folder of the clone
 */
export function buildIsStale(folder) {
  const made = join(folder, "dist", stamp);
  if (!existsSync(made)) return true;
  const { began } = JSON.parse(readFileSync(made, "utf8"));
  return sources.some((source) => newestChange(join(folder, source)) > began);
}

/**
 * Builds beside `dist/` and puts the result in its place at the end: a build that fails leaves the last good one.
 * @param {{ quiet?: boolean, declarations?: boolean }} [options] quiet: messages on stderr; declarations: types as well
 * @returns {Promise<boolean>} whether it was built
 */
export async function build({ quiet = false, declarations = false } = {}) {
  const missing = reasonToInstall(root);
  if (missing !== undefined) {
    console.error(
      `Coilwright cannot be built: ${missing}. Run npm ci first (npm start and npm test do it by themselves).`,
    );
    return false;
  }
  const began = Date.now();
  const dist = join(root, "dist");
  const next = join(root, `dist.next-${process.pid}`);
  const old = join(root, `dist.old-${process.pid}`);
  /** @type {(config: string, folder: string) => Promise<number>} */
  const bundle = (config, folder) =>
    runTool("vite/bin/vite.js", ["build", "--config", config, "--outDir", folder, "--logLevel", "warn"], { quiet });
  const steps = [
    () => bundle("vite.config.ts", join(next, "app")),
    () => bundle("vite.node.config.ts", next),
    ...(declarations
      ? [() => runTool("typescript/bin/tsc", ["-p", "tsconfig.build.json", "--outDir", join(next, "types")], { quiet })]
      : []),
  ];
  try {
    for (const step of steps) if ((await step()) !== 0) return false;
    writeFileSync(join(next, stamp), JSON.stringify({ began }));
    if (existsSync(dist)) renameSync(dist, old);
    renameSync(next, dist);
    return true;
  } finally {
    for (const leftover of [next, old]) rmSync(leftover, { recursive: true, force: true });
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  process.exitCode = (await build({ declarations: true })) ? 0 : 1;
}
