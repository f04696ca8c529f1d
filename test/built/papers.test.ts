/** The papers of a published package: the fonts travel inside it. */
import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { expect, it, onTestFinished } from "vitest";
import { demoCoil } from "../../scripts/demo-coil.js";
import { root } from "../../scripts/step.js";
import { readPdf } from "../views/sheets/read-pdf.ts";

// independent: the file that the build wrote, read by another reader
it("writes a sheet that can be read, in its own fonts", async () => {
  const folder = await mkdtemp(join(tmpdir(), "papers-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const parameters = ["papers", demoCoil, "--out", folder, "--sheets", "winding-sheet", "--format", "pdf"];
  // findings of the coil make the exit code 1; what counts here is the file
  await promisify(execFile)(process.execPath, [join(root, "dist/cli.js"), ...parameters]).catch(() => undefined);
  const bytes = await readFile(join(folder, "winding-sheet.pdf"));
  expect(bytes.toString("latin1")).toContain("/FontFile2");
  const pages = await readPdf(bytes);
  const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text)).join(" ");
  expect(words).toContain("Winding sheet");
  expect(words).toMatch(/Ω/);
});
