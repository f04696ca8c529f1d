import { coilJsonSchema } from "../../readers/coil-file.ts";
import { exit } from "../exit.ts";
import type { Io } from "../io.ts";

/** `coilwright schema`: the JSON Schema of the coil file, for editors. */
export async function schema(io: Io): Promise<number> {
  io.out(`${JSON.stringify(coilJsonSchema(), undefined, 2)}\n`);
  return exit.clean;
}
