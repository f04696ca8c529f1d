/** The first change that a newcomer is asked to make works as it is printed: its shape, its file, its closed form. */
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished } from "vitest";
import { root } from "../../scripts/step.js";
import type { Outline } from "../../src/parts/shape.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { charged, patched } from "../fields/conductors.ts";

interface Dome {
  readonly kind: string;
  readonly outline: (size: { diameter: number; height: number }) => Outline;
}

const text = await readFile(join(root, "docs/first-change.md"), "utf8");
/** A printed block of code that holds a word. */
const block = (language: string, holds: string) =>
  [...text.matchAll(/```(\w*)\n([\s\S]*?)```/g)].find(
    ([, one, code]) => one === language && code?.includes(holds),
  )?.[2];

// published: half a ball by inversion (Kelvin's method of images), 4πε0·R·2(1 − 1/√3)
it("half a ball, as printed, holds the charge that the page says", async () => {
  const folder = await mkdtemp(join(tmpdir(), "first-change-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  const file = join(folder, "dome.ts");
  const code = block("ts", "defineTopLoad") ?? "";
  await writeFile(file, code.replaceAll('from "../', `from "${join(root, "src/parts")}/`));
  const { dome }: { dome: Dome } = await import(file);
  expect(dome.kind).toBe("dome");

  const { capacitance } = charged(patched([dome.outline({ diameter: 0.06, height: 0.15 })], false)[0] ?? [], false);
  const exact = 4 * Math.PI * 8.8541878128e-12 * 0.03 * 2 * (1 - 1 / Math.sqrt(3));
  expect(capacitance / exact).toBeCloseTo(1, 5);
  expect(2 * (1 - 1 / Math.sqrt(3))).toBeCloseTo(0.8453, 4);
});

it("the printed coil file is a coil, once its shape is one that the program knows", () => {
  const printed = block("yaml", "dome:") ?? "";
  const { coil, findings } = readCoil(printed.replace("dome:", "sphere:").replace("155 mm", "185 mm"));
  expect(findings).toEqual([]);
  expect(coil?.name).toBe("Dome");
});
