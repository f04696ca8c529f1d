import { formatCoil } from "../../readers/coil-file.ts";
import { readInput, standardInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";

/** `coilwright format FILE`: the file in even spacing, comments and order kept. Prints it, checks it, or writes it. */
export async function format(
  io: Io,
  name: string,
  { check = false, write = false }: { check?: boolean; write?: boolean },
): Promise<number> {
  const input = await readInput(io, name);
  const text = formatCoil(input.text);
  const same = text === input.text;
  if (check) {
    io.out(
      same
        ? `${input.name} is in even spacing\n`
        : `${input.name} is not in even spacing; coilwright format ${name} --write does it\n`,
    );
    return same ? exit.clean : exit.findings;
  }
  if (!write || name === standardInput || input.version === undefined) {
    io.out(text);
    return exit.clean;
  }
  if (!same) await io.save(name, { text, version: input.version });
  io.out(same ? `${name} was in even spacing already\n` : `${name} is in even spacing now\n`);
  return exit.clean;
}
