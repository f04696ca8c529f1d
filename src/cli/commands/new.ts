import { exit } from "../exit.ts";
import { type Io, UserError } from "../io.ts";
import { starter } from "../starter.ts";

/** `coilwright new FILE`: a new coil file, from a commented start or from an example that comes with the program. */
export async function create(io: Io, name: string, { demo }: { demo?: string }): Promise<number> {
  const text = demo === undefined ? starter : await example(io, demo);
  await io.save(name, { text, version: null });
  io.out(`${name} is there. Next: coilwright check ${name}\n`);
  return exit.clean;
}

async function example(io: Io, demo: string): Promise<string> {
  const examples = await io.examples();
  const found = examples.get(demo);
  if (found !== undefined) return found;
  const names = [...examples.keys()];
  throw new UserError(`no example is called ${demo}; there are ${names.length > 0 ? names.join(", ") : "none here"}`);
}
