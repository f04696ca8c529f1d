/** Packages of the distribution, where this user may install them. */
import { existsSync } from "node:fs";
import { run } from "./step.js";

/** Whether packages of a Debian family can be installed by this user. */
export const canInstall = () => process.getuid?.() === 0 && existsSync("/etc/debian_version");

/**
 * @param {...string} packages
 * @returns {Promise<void>}
 */
export async function installPackages(...packages) {
  const environment = { DEBIAN_FRONTEND: "noninteractive" };
  await run("apt-get", ["update", "-qq"], { quiet: true, environment });
  await run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", ...packages], { quiet: true, environment });
}
