/** When packages must be installed, and which browser is taken. */
import { chmod, mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { findBrowser } from "../../scripts/browser.js";
import { packagesThatDiffer, reasonToInstall } from "../../scripts/packages.js";

async function folder() {
  const path = await mkdtemp(join(tmpdir(), "house-"));
  onTestFinished(() => rm(path, { recursive: true, force: true }));
  return path;
}

const locked = {
  packages: {
    "": { version: "0.1.0" },
    "node_modules/one": { version: "1.0.0" },
    "node_modules/native": { version: "2.0.0", optional: true },
  },
};

describe("packagesThatDiffer", () => {
  it.each([
    ["nothing, when all are there", { "node_modules/one": "1.0.0", "node_modules/native": "2.0.0" }, 0],
    ["nothing, when one for another platform is missing", { "node_modules/one": "1.0.0" }, 0],
    ["a missing package", { "node_modules/native": "2.0.0" }, 1],
    ["another version", { "node_modules/one": "1.0.1" }, 1],
    ["another version of an optional one", { "node_modules/one": "1.0.0", "node_modules/native": "2.0.1" }, 1],
    ["one that the lockfile does not know", { "node_modules/one": "1.0.0", "node_modules/stray": "1.0.0" }, 1],
  ])("finds %s", (_what, versions, count) => {
    const packages = Object.fromEntries(Object.entries(versions).map(([path, version]) => [path, { version }]));
    expect(packagesThatDiffer(locked, { packages })).toHaveLength(count);
  });
});

describe("reasonToInstall", () => {
  it("tells a fresh clone from an installed one", async () => {
    const clone = await folder();
    await writeFile(join(clone, "package-lock.json"), JSON.stringify(locked));
    expect(reasonToInstall(clone)).toBe("no packages are installed yet");
    await mkdir(join(clone, "node_modules"));
    expect(reasonToInstall(clone)).toBe("no packages are installed yet");
    const list = join(clone, "node_modules", ".package-lock.json");
    await writeFile(list, JSON.stringify({ packages: { "node_modules/one": { version: "0.9.0" } } }));
    expect(reasonToInstall(clone)).toMatch(/node_modules\/one: 0\.9\.0, the lockfile says 1\.0\.0/);
    await writeFile(list, JSON.stringify({ packages: { "node_modules/one": { version: "1.0.0" } } }));
    expect(reasonToInstall(clone)).toBeUndefined();
  });
});

describe("findBrowser", () => {
  it("takes CHROME_PATH where it is set, and does not replace a wrong one by another browser", async () => {
    const path = await folder();
    const browser = join(path, "chromium");
    await writeFile(browser, "#!/bin/sh\n");
    await chmod(browser, 0o755);
    expect(findBrowser({ PATH: path })).toBe(browser);
    expect(findBrowser({ PATH: "", CHROME_PATH: browser })).toBe(browser);
    expect(findBrowser({ PATH: path, CHROME_PATH: join(path, "gone") })).toBeUndefined();
    await chmod(browser, 0o644);
    expect(findBrowser({ PATH: path, CHROME_PATH: browser })).toBeUndefined();
  });
});
