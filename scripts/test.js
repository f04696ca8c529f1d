/**
 * `npm test`: sets up what is missing, checks everything, and ends with a table of steps and times.
 * `node scripts/test.js types unit` runs the named steps alone. Uses nothing but Node until the packages are there.
 */
import { ensureBrowser } from "./browser.js";
import { build } from "./build.js";
import { ensureCrossCompiler } from "./cross-compiler.js";
import { ensurePackages, requireNode } from "./packages.js";
import { run, runTool, seconds } from "./step.js";

requireNode();

/**
 * @typedef {object} Step
 * @property {string} name
 * @property {string} says what the step is
 * @property {string} [after] a step that must have passed before, where it runs at all
 * @property {() => Promise<boolean>} passes
 * @property {string} [without] what is left out where the step does not pass, which then is no failure
 */

/** @type {string | undefined} */
let browserPath;
/** @type {(script: string, ...parameters: string[]) => Promise<boolean>} */
const tool = async (script, ...parameters) => (await runTool(script, parameters)) === 0;
/** @type {(project: string) => Promise<boolean>} */
const vitest = async (project) =>
  (await runTool("vitest/vitest.mjs", ["run", "--project", project], {
    environment: browserPath === undefined ? {} : { CHROME_PATH: browserPath },
  })) === 0;

/** @type {readonly Step[]} */
const steps = [
  { name: "packages", says: "packages as the lockfile says", passes: ensurePackages },
  { name: "browser", says: "a browser for the browser tests", passes: findTheBrowser },
  {
    name: "compiler",
    says: "a cross-compiler for the tests of the firmware",
    without: "the firmware was not compiled and run",
    passes: ensureCrossCompiler,
  },
  { name: "types", says: "type check", after: "packages", passes: () => tool("typescript/bin/tsc", "-p", ".") },
  {
    name: "style",
    says: "format and lint",
    after: "packages",
    passes: () => tool("@biomejs/biome/bin/biome", "ci", "--error-on-warnings"),
  },
  { name: "unused", says: "unused code and packages", after: "packages", passes: () => tool("knip/bin/knip.js") },
  { name: "imports", says: "direction of imports", after: "packages", passes: importsPass },
  { name: "build", says: "app, library, command line", after: "packages", passes: () => build({ declarations: true }) },
  { name: "size", says: "size of the app", after: "build", passes: () => tool("size-limit/bin.js") },
  { name: "unit", says: "unit tests", after: "packages", passes: () => vitest("unit") },
  { name: "built", says: "tests of the build", after: "build", passes: () => vitest("built") },
  { name: "screen", says: "browser tests", after: "browser", passes: () => vitest("browser") },
];

async function importsPass() {
  return (await run(process.execPath, ["scripts/imports.js"])) === 0;
}

async function findTheBrowser() {
  browserPath = await ensureBrowser();
  if (browserPath !== undefined) console.log(`browser: ${browserPath}`);
  return browserPath !== undefined;
}

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !steps.some((step) => step.name === name));
if (unknown.length > 0) {
  console.error(`There is no step ${unknown.join(", ")}. Steps: ${steps.map(({ name }) => name).join(" ")}`);
  process.exit(2);
}

/** @type {Map<string, { result: "passed" | "FAILED" | "not run" | "missing", time: number }>} */
const outcome = new Map();
/** @type {string[]} */
const leftOut = [];
for (const { name, says, after, passes, without } of steps) {
  // Packages come with every step; the browser with its tests.
  const needed = asked.length === 0 || asked.includes(name) || name === "packages";
  const serves = { browser: "screen", compiler: "unit" }[name];
  if (!needed && !(serves !== undefined && asked.includes(serves))) continue;
  const before = [after, name === "screen" ? "build" : undefined].filter((one) => one !== undefined);
  if (before.some((one) => outcome.has(one) && outcome.get(one)?.result !== "passed")) {
    outcome.set(name, { result: "not run", time: 0 });
    continue;
  }
  console.log(`\n── ${name}: ${says}`);
  const began = performance.now();
  const passed = await passes().catch((error) => {
    console.error(error);
    return false;
  });
  if (!passed && without !== undefined) leftOut.push(without);
  const otherwise = without === undefined ? "FAILED" : "missing";
  outcome.set(name, { result: passed ? "passed" : otherwise, time: performance.now() - began });
}

const total = [...outcome.values()].reduce((sum, { time }) => sum + time, 0);
console.log("\nstep       result       time");
for (const [name, { result, time }] of outcome) {
  console.log(`${name.padEnd(10)} ${result.padEnd(8)} ${seconds(time).padStart(8)}`);
}
const failed = [...outcome]
  .filter(([, { result }]) => result === "FAILED" || result === "not run")
  .map(([name]) => name);
const passedWords = leftOut.length === 0 ? "all passed" : `passed, but ${leftOut.join(", ")}`;
console.log(`${failed.length === 0 ? passedWords : `not passed: ${failed.join(", ")}`}, ${seconds(total)} in all`);
process.exitCode = failed.length === 0 ? 0 : 1;
