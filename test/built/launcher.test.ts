/** `coilwright` as a shell starts it: from a clone, from a published package, and from a half of one. */
import { execFile } from "node:child_process";
import { copyFile, cp, mkdir, mkdtemp, rm, symlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { demoCoil } from "../../scripts/demo-coil.js";
import { root } from "../../scripts/step.js";

interface Ended {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

const launch = (launcher: string, ...parameters: string[]): Promise<Ended> =>
  new Promise((ended) => {
    execFile(process.execPath, [launcher, ...parameters], (error, out, err) => {
      ended({ code: error === null ? 0 : Number(error.code), out, err });
    });
  });

/** A folder laid out as the package is published: launcher and build, no source. */
async function publishedFolder(...parts: readonly string[]) {
  const folder = await mkdtemp(join(tmpdir(), "published-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  await mkdir(join(folder, "bin"));
  await copyFile(join(root, "bin/coilwright.js"), join(folder, "bin/coilwright.js"));
  for (const part of ["package.json", ...parts]) await cp(join(root, part), join(folder, part), { recursive: true });
  return folder;
}

describe("the launcher", () => {
  it("starts the command line of a clone", async () => {
    const { code, out } = await launch(join(root, "bin/coilwright.js"), "--help");
    expect(code).toBe(0);
    expect(out).toMatch(/coilwright/);
  });

  it("starts from a published package, which has no source and no packages beside it", async () => {
    const folder = await publishedFolder("dist");
    const { code, out, err } = await launch(join(folder, "bin/coilwright.js"), "tune", demoCoil, "--json");
    expect(err).toBe("");
    expect(code).toBeLessThan(2);
    expect(JSON.parse(out)).toHaveProperty(["quantities", "secondary.f1", "value"], expect.any(Number));
  });

  it("starts through a link, as package managers lay one", async () => {
    const folder = await publishedFolder("dist");
    const link = join(folder, "coilwright");
    await symlink(join(folder, "bin/coilwright.js"), link);
    expect((await launch(link, "--help")).code).toBe(0);
  });

  it("says in one sentence that it is not built", async () => {
    const folder = await publishedFolder();
    const { code, out, err } = await launch(join(folder, "bin/coilwright.js"), "--help");
    expect({ code, out }).toEqual({ code: 1, out: "" });
    expect(err).toMatch(/^Coilwright is not built, .*npm start.*\n$/);
  });

  it("starts quickly: the command line is one bundle", async () => {
    const began = performance.now();
    await launch(join(root, "dist/cli.js"), "--help");
    // law: a bare Node takes some 50 ms here; a search through packages takes seconds. The margin is for a busy machine.
    expect(performance.now() - began).toBeLessThan(1500);
  });
});
