/** How the app is built: `src/app/index.html` and what it imports, into a folder that any static server can serve. */
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  root: at("./src/app"),
  base: "./",
  publicDir: "public",
  build: {
    outDir: at("./dist/app"),
    emptyOutDir: true,
    target: "es2022",
    // Everything is a file of its own: the policy that the server sends allows no data: scripts, styles or fonts.
    assetsInlineLimit: 0,
    license: { fileName: "licences.md" },
    reportCompressedSize: false,
  },
  worker: { format: "es" },
});
