/** A folder of a test's own, with a coil file and a small built app in it, taken away at the end. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";

export const coilText = "coilwright: 1\nname: Lantern   # a comment that stays\n";

export interface Bench {
  readonly folder: string;
  readonly file: string;
  readonly appFolder: string;
  readonly examples: string;
}

export async function makeBench(): Promise<Bench> {
  const folder = await mkdtemp(join(tmpdir(), "bench-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const bench = {
    folder,
    file: join(folder, "work", "lantern.yaml"),
    appFolder: join(folder, "app"),
    examples: join(folder, "examples"),
  };
  for (const one of ["work", "app/assets", "examples"]) await mkdir(join(folder, one), { recursive: true });
  await writeFile(bench.file, coilText);
  await writeFile(join(folder, "secret.txt"), "not for the wire");
  await writeFile(join(bench.appFolder, "index.html"), "<!doctype html><title>Coilwright</title>");
  await writeFile(join(bench.appFolder, "assets", "main.js"), "export {};");
  await writeFile(join(bench.examples, "b.yaml"), "coilwright: 1\nname: B\n");
  await writeFile(join(bench.examples, "a.yaml"), "coilwright: 1\nname: A\n");
  await writeFile(join(bench.examples, "record.csv"), "1,2\n");
  return bench;
}
