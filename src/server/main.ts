/** Serves one coil file until it is told to stop: `node dist/serve.js FILE --app DIR [--examples DIR] [--port N] [--open]`. */
import { parseArgs } from "node:util";
import { ServeError } from "./errors.ts";
import { openBrowser } from "./open-browser.ts";
import { serveCoil } from "./serve-coil.ts";

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    app: { type: "string" },
    examples: { type: "string" },
    port: { type: "string" },
    open: { type: "boolean", default: false },
  },
});
const [file] = positionals;

try {
  if (file === undefined || values.app === undefined) {
    throw new ServeError({ code: "nothing-to-serve", status: 400, message: "a coil file and --app were expected" });
  }
  const serving = await serveCoil({
    file,
    appFolder: values.app,
    ...(values.examples === undefined ? {} : { examples: values.examples }),
    ...(values.port === undefined ? {} : { port: Number(values.port) }),
  });
  console.log(`Coilwright serves ${file} at ${serving.address}`);
  console.log("It answers on this machine only. Press Ctrl+C to stop.");
  for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => void serving.close());
  if (values.open) await openBrowser(serving.address);
} catch (error) {
  if (!(error instanceof ServeError)) throw error;
  console.error(`Coilwright: ${error.message}`);
  process.exitCode = 1;
}
