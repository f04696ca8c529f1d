/** How the library and the command line, with the server in it, are built for Node: bundled, so that they start without a search. */
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { layers, readers } from "./scripts/layers.cjs";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** `coilwright/units`, `coilwright/fields`, …: every folder that has a front door. */
const doors = [...layers, readers]
  .map(({ folder }): [string, string] => [folder, at(`./src/${folder}/index.ts`)])
  .filter(([, path]) => existsSync(path));

export default defineConfig({
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: at("./dist"),
    emptyOutDir: false,
    target: "node20",
    minify: false,
    license: { fileName: "licences.md" },
    rolldownOptions: {
      input: { index: at("./src/index.ts"), cli: at("./src/cli/main.ts"), ...Object.fromEntries(doors) },
    },
  },
});
