import { CommanderError } from "commander";
import { exit } from "./exit.ts";
import { Interrupted, type Io, UserError } from "./io.ts";
import { programOf } from "./program.ts";

/**
 * Runs one command line.
 * @param argv  the words after the program's name
 * @returns     the exit code; never throws for anything that the person can mend
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  let code: number = exit.clean;
  try {
    const program = programOf(io, (found) => {
      code = found;
    });
    await program.parseAsync(argv.length > 0 ? [...argv] : ["--help"], { from: "user" });
    return code;
  } catch (error) {
    // Help and version arrive as errors too; what they print is printed already.
    if (error instanceof CommanderError) return error.exitCode === 0 ? exit.clean : exit.unreadable;
    if (!(error instanceof UserError)) throw error;
    io.progress("");
    io.err(`coilwright: ${error.message}\n`);
    if (argv.includes("--json")) io.out(`${JSON.stringify(refused(error.message), undefined, 2)}\n`);
    return error instanceof Interrupted ? exit.interrupted : exit.unreadable;
  }
}

/** What `--json` prints where there is nothing to print: the shape stays, so that a script need not guess. */
const refused = (message: string) => ({
  quantities: {},
  findings: [{ rule: "not-read", severity: "stop", path: "", what: message, evidence: [], remedies: [] }],
});
