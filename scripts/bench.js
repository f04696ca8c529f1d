/**
 * `npm run bench`: bundles the races as the product is bundled, and runs them in a plain Node; then the burst against a general-purpose circuit
 * simulator. With names only the races that hold one of them are run; `simulator` is the last one's. `long` reads records of ten million rows,
 * in Node and in the browser, which takes two minutes and half a gigabyte of the temporary folder, and only where it is named.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "vite";
import { root, run } from "./step.js";

const names = process.argv.slice(2);
const own = ["simulator", "long"];
const others = names.filter((name) => !own.includes(name));

/** The simulator is 42 MB of WebAssembly, and a browser is driven by a package too: what imports them is bundled where packages are found. */
const work = [
  {
    entry: "run",
    wanted: names.length === 0 || others.length > 0,
    folder: mkdtempSync(join(tmpdir(), "races-")),
    whole: true,
    names: others,
  },
  {
    entry: "burst",
    wanted: names.length === 0 || names.includes("simulator"),
    folder: join(root, "node_modules/.races"),
    whole: false,
    names: [],
  },
  {
    entry: "long-record",
    wanted: names.includes("long"),
    folder: join(root, "node_modules/.long"),
    whole: false,
    names: [],
  },
];

try {
  for (const { entry, folder, whole, names: args } of work.filter(({ wanted }) => wanted)) {
    await build({
      root,
      configFile: false,
      logLevel: "warn",
      ...(whole ? { ssr: { noExternal: true } } : {}),
      build: { ssr: `bench/${entry}.ts`, outDir: folder, emptyOutDir: true, target: "node20", minify: false },
    });
    const code = await run(process.execPath, [join(folder, `${entry}.js`), ...args]);
    process.exitCode = Math.max(code, Number(process.exitCode ?? 0));
  }
} finally {
  for (const { folder } of work) rmSync(folder, { recursive: true, force: true });
}
