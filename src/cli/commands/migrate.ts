import { migrateCoil } from "../../readers/coil-file.ts";
import { readInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";

/** `coilwright migrate FILE`: a file of an older format in today's. */
export async function migrate(io: Io, name: string): Promise<number> {
  const input = await readInput(io, name);
  const text = migrateCoil(input.text);
  if (text === input.text) {
    io.err(`${input.name} is in today's format already\n`);
    if (input.version === undefined) io.out(text);
    return exit.clean;
  }
  if (input.version === undefined) io.out(text);
  else {
    await io.save(name, { text, version: input.version });
    io.out(`${name} is in today's format now\n`);
  }
  return exit.clean;
}
