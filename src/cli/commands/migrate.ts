import { migrateCoil } from "../../readers/coil-file.ts";
import { findingsText } from "../../views/text/findings.ts";
import { readInput } from "../coil-input.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";

/** `coilwright migrate FILE`: a file of an older format in today's. */
export async function migrate(io: Io, name: string): Promise<number> {
  const input = await readInput(io, name);
  const done = migrateCoil(input.text);
  if ("findings" in done) {
    const { width, colour } = io;
    io.err(findingsText({ findings: done.findings, text: input.text, fileName: input.name, width, colour }));
    return exit.unreadable;
  }
  const { text, from, to } = done;
  if (input.version === undefined) {
    io.out(text);
    return exit.clean;
  }
  if (text === input.text) {
    io.out(`${name} is in format ${to} already\n`);
    return exit.clean;
  }
  await io.save(name, { text, version: input.version });
  io.out([`${name}: format ${from} is now format ${to}`, ...done.done.map((step) => `  ${step}`), ""].join("\n"));
  return exit.clean;
}
