/** `npm run bench`: bundles the races as the product is bundled, and runs them in a plain Node. */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { root, run } from "./step.js";

const folder = mkdtempSync(join(tmpdir(), "races-"));
try {
  await build({
    root,
    configFile: false,
    logLevel: "warn",
    ssr: { noExternal: true },
    build: { ssr: "bench/run.ts", outDir: folder, emptyOutDir: true, target: "node20", minify: false },
  });
  process.exitCode = await run(process.execPath, [join(folder, "run.js"), ...process.argv.slice(2)]);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
