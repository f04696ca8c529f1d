/** Where the command line begins: `node dist/cli.js …`. */
import { nodeIo } from "./node-io.ts";
import { run } from "./run.ts";

// A reader that closes early, such as `head`, is no fault of the output.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
  process.exit();
});
process.exitCode = await run(process.argv.slice(2), nodeIo());
