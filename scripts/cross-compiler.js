/** The cross-compiler for the firmware's tests: found, or installed where this user may. */
import { spawnSync } from "node:child_process";
import { canInstall, installPackages } from "./debian.js";

const isThere = () => spawnSync("avr-gcc", ["--version"], { stdio: "ignore" }).status === 0;

/**
 * @returns {Promise<boolean>} whether it is there; says what is left out where it is not
 */
export async function ensureCrossCompiler() {
  if (isThere()) return true;
  if (canInstall()) {
    console.error("Coilwright: no cross-compiler for the tests of the firmware; installing gcc-avr with apt-get.");
    await installPackages("gcc-avr", "avr-libc");
    if (isThere()) return true;
  }
  console.error(
    "No cross-compiler was found: the tests that compile and run the generated firmware are left out. " +
      "Install it (Debian: apt-get install gcc-avr avr-libc, as root) and run the same command again.",
  );
  return false;
}
