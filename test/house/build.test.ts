/** When a build is older than what it is made from. */
import { mkdir, mkdtemp, rm, utimes, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { buildIsStale } from "../../scripts/build.js";

const began = Date.UTC(2024, 0, 1);

/** A clone whose every file is a minute older than its build. */
async function builtClone() {
  const clone = await mkdtemp(join(tmpdir(), "clone-"));
  onTestFinished(() => rm(clone, { recursive: true, force: true }));
  await mkdir(join(clone, "src", "units"), { recursive: true });
  await mkdir(join(clone, "dist"));
  await writeFile(join(clone, "dist", "built.json"), JSON.stringify({ began }));
  const files = [
    "index.html",
    "package-lock.json",
    "tsconfig.json",
    "vite.config.ts",
    "vite.node.config.ts",
    "src/units/si.ts",
  ];
  for (const path of files) await writeFile(join(clone, path), "");
  const before = new Date(began - 60_000);
  for (const path of [...files, "src/units", "src"]) await utimes(join(clone, path), before, before);
  return clone;
}

it("is fresh while nothing changed", async () => {
  expect(buildIsStale(await builtClone())).toBe(false);
});

it.each([
  ["there is none", async (clone: string) => rm(join(clone, "dist"), { recursive: true })],
  ["a source was written", async (clone: string) => writeFile(join(clone, "src/units/si.ts"), "export {};")],
  ["a source was added", async (clone: string) => writeFile(join(clone, "src/units/new.ts"), "")],
  ["a source was taken away", async (clone: string) => rm(join(clone, "src/units/si.ts"))],
  ["the lockfile changed", async (clone: string) => writeFile(join(clone, "package-lock.json"), "{}")],
])("is stale when %s", async (_what, change) => {
  const clone = await builtClone();
  await change(clone);
  expect(buildIsStale(clone)).toBe(true);
});
