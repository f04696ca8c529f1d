/** The coil files of the examples folder, to be looked at and copied, never written. */
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import { readCoilText } from "./coil-on-disk.ts";

export interface Example {
  /** Name of the file, e.g. `table-coil.yaml`. */
  readonly name: string;
  readonly text: string;
}

/** The examples in order of name; none where there is no such folder. */
export async function readExamples(folder: string): Promise<readonly Example[]> {
  const names = await readdir(folder).catch(() => []);
  const examples: Example[] = [];
  for (const name of names.filter((one) => /\.ya?ml$/.test(one)).sort()) {
    const found = await readCoilText(join(folder, name));
    if (found !== undefined) examples.push({ name, text: found.text });
  }
  return examples;
}
