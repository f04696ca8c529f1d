/** Running one tool of the house: its output passes through, its time is taken. Uses nothing but Node. */
import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("..", import.meta.url));

/**
 * @param {string} command
 * @param {readonly string[]} parameters
 * @param {{ quiet?: boolean, environment?: Record<string, string> }} [options] quiet: its output goes to stderr
 * @returns {Promise<number>} the exit code; 127 where the command cannot be started
 */
export function run(command, parameters, { quiet = false, environment = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, parameters, {
      cwd: root,
      stdio: ["inherit", quiet ? 2 : "inherit", "inherit"],
      env: { ...process.env, ...environment },
    });
    child.once("error", (error) => {
      console.error(`${command} could not be started: ${error.message}`);
      resolve(127);
    });
    child.once("close", (code, signal) => resolve(code ?? (signal === null ? 1 : 128)));
  });
}

/**
 * Runs a script of an installed package with this same Node.
 * @param {string} script path under node_modules
 * @param {readonly string[]} parameters
 * @param {{ quiet?: boolean, environment?: Record<string, string> }} [options]
 */
export const runTool = (script, parameters, options) =>
  run(process.execPath, [fileURLToPath(new URL(`../node_modules/${script}`, import.meta.url)), ...parameters], options);

/** @param {number} milliseconds */
export const seconds = (milliseconds) => `${(milliseconds / 1000).toFixed(1)} s`;
