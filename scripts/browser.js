/** The browser that the tests drive: an installed one, or the distribution's. Uses nothing but Node. */
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";
import { canInstall, installPackages } from "./debian.js";

const usualNames = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"];
const usualPlaces = [
  "/usr/lib/chromium/chromium",
  "/snap/bin/chromium",
  "/opt/google/chrome/chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
];

/** What a browser is started with: no sandbox, for containers; nothing fetched by itself. */
export const browserFlags = [
  "--no-sandbox",
  "--disable-gpu",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  "--disable-quic",
];

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/**
 * The path of a browser: `CHROME_PATH` where it is set, else the first usual name on the search path or in a usual place.
 * @param {Record<string, string | undefined>} environment
 * @returns {string | undefined}
 */
export function findBrowser(environment) {
  const named = environment["CHROME_PATH"];
  // A wrong CHROME_PATH is not quietly replaced by another browser.
  if (named !== undefined && named !== "") return isExecutable(named) ? named : undefined;
  const folders = (environment["PATH"] ?? "").split(delimiter).filter((folder) => folder !== "");
  const onPath = usualNames.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...usualPlaces].find(isExecutable);
}

/**
 * Finds a browser, installing the distribution's Chromium where this user may. Says what is missing where it cannot.
 * @returns {Promise<string | undefined>}
 */
export async function ensureBrowser() {
  const found = findBrowser(process.env);
  if (found !== undefined) return found;
  if (process.env["CHROME_PATH"]) {
    console.error(`CHROME_PATH is ${process.env["CHROME_PATH"]}, and that is not a program that can be run.`);
    return undefined;
  }
  if (canInstall()) {
    console.error("Coilwright: no browser for the tests; installing Chromium with apt-get.");
    await installPackages("chromium");
    const installed = findBrowser(process.env);
    if (installed !== undefined) return installed;
  }
  console.error(
    "No browser was found for the browser tests. Install Chromium (Debian: apt-get install chromium, as root) or set " +
      "CHROME_PATH to an installed Chrome or Chromium, and run the same command again.",
  );
  return undefined;
}
