import { defineConfig, type Plugin } from "vite";

/** Writes `files.json`, the list of all that the app is made of, for the worker that keeps it at hand without a network. */
function listOfFiles(): Plugin {
  return {
    name: "list-of-files",
    generateBundle(_options, bundle) {
      const files = [
        ...Object.keys(bundle).filter((name) => name !== "index.html" && name !== "offline.js"),
        "api/file",
        "mark.svg",
      ];
      this.emitFile({
        type: "asset",
        fileName: "files.json",
        source: `${JSON.stringify(files.sort(), undefined, 1)}\n`,
      });
    },
  };
}

/** What a room fetches when it is first opened stands apart, so that its weight can be told. */
const chunkFileNames = ({ isDynamicEntry }: { readonly isDynamicEntry: boolean }): string =>
  `assets/${isDynamicEntry ? "later/" : ""}[name]-[hash].js`;

/** The app is built to be served from any folder of any static host, and from loopback. */
export default defineConfig({
  base: "./",
  publicDir: "src/app/public",
  plugins: [listOfFiles()],
  build: {
    outDir: "dist/app",
    emptyOutDir: true,
    target: "es2023",
    // the server's policy takes no data: fonts
    assetsInlineLimit: 0,
    rolldownOptions: {
      input: { index: "index.html", offline: "src/app/host/offline-worker.ts" },
      output: {
        // the page asks for this one by its name, and its scope is the folder that it stands in
        entryFileNames: ({ name }) => (name === "offline" ? "offline.js" : "assets/[name]-[hash].js"),
        chunkFileNames,
      },
    },
  },
  worker: { format: "es", rolldownOptions: { output: { chunkFileNames } } },
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
});
