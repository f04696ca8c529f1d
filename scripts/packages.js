/** The packages of the lockfile: are they there, and if not, put them there. Uses nothing but Node and npm. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root, run } from "./step.js";

const oldestNode = [20, 19];

/** Ends the program with a sentence where this Node is too old for the packages. */
export function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split(".").map(Number);
  const [needMajor = 0, needMinor = 0] = oldestNode;
  if (major > needMajor || (major === needMajor && minor >= needMinor)) return;
  console.error(
    `Coilwright needs Node ${oldestNode.join(".")} or newer; this is Node ${process.versions.node}. ` +
      "Install a newer Node (https://nodejs.org or your distribution) and run the same command again.",
  );
  process.exit(1);
}

/**
 * What differs between the lockfile and the list that npm keeps of what it installed.
 * @param {{ packages?: Record<string, { version?: string, optional?: boolean }> }} locked package-lock.json
 * @param {{ packages?: Record<string, { version?: string }> }} installed node_modules/.package-lock.json
 * @returns {string[]} one line for each package that is missing or of another version; optional ones may be missing
 */
export function packagesThatDiffer(locked, installed) {
  const there = installed.packages ?? {};
  const wanted = locked.packages ?? {};
  const differing = [];
  for (const [path, { version, optional }] of Object.entries(wanted)) {
    if (path === "") continue;
    const found = there[path]?.version;
    if (found === version || (found === undefined && optional === true)) continue;
    differing.push(`${path}: ${found ?? "missing"}, the lockfile says ${version}`);
  }
  for (const path of Object.keys(there)) if (!(path in wanted)) differing.push(`${path}: not in the lockfile`);
  return differing;
}

/** @param {string} path */
const readJson = (path) => JSON.parse(readFileSync(path, "utf8"));

/**
 * Why the packages must be installed, or undefined where they are as the lockfile says.
 * @param {string} folder
 */
export function reasonToInstall(folder) {
  const list = join(folder, "node_modules", ".package-lock.json");
  if (!existsSync(list)) return "no packages are installed yet";
  const differing = packagesThatDiffer(readJson(join(folder, "package-lock.json")), readJson(list));
  if (differing.length === 0) return undefined;
  return `${differing.length} of the installed packages differ from the lockfile (${differing[0]})`;
}

/** Installs the packages of the lockfile where they are missing or stale. Answers whether they are there. */
export async function ensurePackages() {
  const reason = reasonToInstall(root);
  if (reason === undefined) return true;
  console.error(`Coilwright: ${reason}; installing them with npm ci.`);
  // No package of ours needs a script of its own to run at installation.
  const parameters = ["ci", "--include=dev", "--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error"];
  const npm = process.env["npm_execpath"];
  const code = npm?.endsWith(".js")
    ? await run(process.execPath, [npm, ...parameters], { quiet: true })
    : await run(process.platform === "win32" ? "npm.cmd" : "npm", parameters, { quiet: true });
  if (code === 0) return true;
  console.error(
    "\nThe packages could not be installed (npm's own message is above). This step needs the package registry and a folder " +
      "that you may write to; once it has passed, Coilwright works without a network.",
  );
  return false;
}
