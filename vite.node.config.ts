/** How the library, the command line and the server entry are built for Node: bundled, so that they start without a search. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

const entries = { index: "./src/index.ts", cli: "./src/cli/main.ts", serve: "./src/server/main.ts" };
const present = Object.entries(entries).filter(([, path]) => existsSync(at(path)));

export default defineConfig({
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: at("./dist"),
    emptyOutDir: false,
    target: "node20",
    minify: false,
    license: { fileName: "licences.md" },
    rolldownOptions: { input: Object.fromEntries(present.map(([name, path]) => [name, at(path)])) },
  },
});
