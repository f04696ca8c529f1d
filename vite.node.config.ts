/** How the library and the command line, with the server in it, are built for Node: bundled, so that they start without a search. */
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  ssr: { noExternal: true },
  build: {
    ssr: true,
    outDir: at("./dist"),
    emptyOutDir: false,
    target: "node20",
    minify: false,
    license: { fileName: "licences.md" },
    rolldownOptions: { input: { index: at("./src/index.ts"), cli: at("./src/cli/main.ts") } },
  },
});
