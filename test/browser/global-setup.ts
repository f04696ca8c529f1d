/** Before the browser tests: is there a browser, and is the app built? Missing either is a failure, never a skipped test. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { TestProject } from "vitest/node";
import { findBrowser } from "../../scripts/browser.js";

declare module "vitest" {
  interface ProvidedContext {
    browserPath: string;
    appFolder: string;
  }
}

export default function setup(project: TestProject): void {
  const browserPath = findBrowser(process.env);
  if (browserPath === undefined) {
    throw new Error("no browser was found: run npm test, which finds or installs one, or set CHROME_PATH to Chromium");
  }
  const appFolder = fileURLToPath(new URL("../../dist/app", import.meta.url));
  if (!existsSync(`${appFolder}/index.html`)) throw new Error("the app is not built: run npm run build first");
  project.provide("browserPath", browserPath);
  project.provide("appFolder", appFolder);
}
