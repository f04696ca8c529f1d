#!/usr/bin/env node
/** Starts the command line. In a clone it builds first where the build is missing or older than the source. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const at = (/** @type {string} */ path) => fileURLToPath(new URL(path, import.meta.url));
const commandLine = new URL("../dist/cli.js", import.meta.url);

/** Whether the command line is there to be started, after building it where that can be done. */
async function ready() {
  // A published package holds the build alone; only a clone has its source.
  if (!existsSync(at("../src"))) return existsSync(commandLine);
  const { buildIsStale, build } = await import("../scripts/build.js");
  if (!buildIsStale(at(".."))) return true;
  console.error("Coilwright: building, because the source is newer than the build …");
  return build({ quiet: true });
}

if (await ready()) await import(commandLine.href);
else {
  console.error(
    "Coilwright is not built, so the command line cannot start. In a clone, run npm start or npm test once.",
  );
  process.exitCode = 1;
}
