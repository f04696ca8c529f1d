/** Coils to draw: those of the examples folder, which may change, and one of our own, which does not. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Coil } from "../../src/description/coil.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import type { CoilFile } from "../../src/workbench/contract.ts";

export const exampleNames = ["lectern", "inkwell", "belfry", "thimble"] as const;

const read = (path: string) => readFileSync(fileURLToPath(new URL(path, import.meta.url)), "utf8");

/** Its numbers are quoted in tests. */
export const lecternText = read("./lectern.yaml");

export const exampleText = (name: string): string =>
  name === "lectern" ? lecternText : read(`../../examples/${name}.yaml`);

export function coilOf(text: string): CoilFile & { readonly coil: Coil } {
  const file = readCoil(text);
  if (file.coil === undefined) throw new Error(file.findings.map(({ what }) => what).join("; "));
  return { ...file, coil: file.coil };
}
