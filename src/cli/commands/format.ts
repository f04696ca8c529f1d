import { formatCoil } from "../../readers/coil-file.ts";
import { findingsText } from "../../views/text/findings.ts";
import { readInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";

/** `coilwright format FILE`: the file in even spacing, comments and order kept. Prints it, checks it, or writes it. */
export async function format(
  io: Io,
  name: string,
  { check = false, write = false }: { check?: boolean; write?: boolean },
): Promise<number> {
  const input = await readInput(io, name);
  const done = formatCoil(input.text);
  if ("findings" in done) {
    const { width, colour } = io;
    io.err(findingsText({ findings: done.findings, text: input.text, fileName: input.name, width, colour }));
    return exit.unreadable;
  }
  const same = done.text === input.text;
  if (check) {
    io.out(
      same
        ? `${input.name} is in even spacing\n`
        : `${input.name} is not in even spacing; coilwright format ${name} --write sets it so\n`,
    );
    return same ? exit.clean : exit.findings;
  }
  if (!write || input.version === undefined) {
    io.out(done.text);
    return exit.clean;
  }
  if (!same) await io.save(name, { text: done.text, version: input.version });
  io.out(same ? `${name} was in even spacing already\n` : `${name} is in even spacing now\n`);
  return exit.clean;
}
