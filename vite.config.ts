import { join } from "node:path";
import { defineConfig, normalizePath, type Plugin } from "vite";

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

const hashed = "[name]-[hash]";

/**
 * What is fetched only when a room is first opened or a question first asked stands in a folder of its own, so that its weight can be told from
 * what an entry cannot begin without: the modules that static imports reach.
 */
function laterApart(name: string) {
  const entries = new Set<string>();
  const first = new Set<string>();
  const plugin: Plugin = {
    name: "later-apart",
    buildEnd() {
      const reach = (id: string): void => {
        if (first.has(id)) return;
        first.add(id);
        for (const next of this.getModuleInfo(id)?.importedIds ?? []) reach(next);
      };
      for (const id of this.getModuleIds()) {
        const found = this.getModuleInfo(id);
        if (!found?.isEntry) continue;
        entries.add(id);
        // what is fetched later stands on the shared file, which must not wait for what the page's own script waits for
        if (id.endsWith(".html")) for (const script of found.importedIds) entries.add(script);
      }
      for (const id of entries) reach(id);
    },
  };
  const folderOf = (modules: readonly string[]) => (modules.some((id) => first.has(id)) ? "assets" : "assets/later");
  return {
    plugin,
    /** One file for all that an entry needs: small ones fetched one behind the other would cost more. */
    codeSplitting: { groups: [{ name, test: (id: string) => first.has(id) && !entries.has(id) }] },
    chunkFileNames: ({ moduleIds }: { readonly moduleIds: readonly string[] }) => `${folderOf(moduleIds)}/${hashed}.js`,
    /** Style is named after the module whose chunk it belongs to. */
    assetFileNames: ({ names, originalFileNames }: Named) => {
      const isStyle = names.some((name) => name.endsWith(".css"));
      const of = originalFileNames.map((name) => normalizePath(join(import.meta.dirname, name)));
      return `${isStyle && of.length > 0 ? folderOf(of) : "assets"}/${hashed}[extname]`;
    },
  };
}

interface Named {
  readonly names: readonly string[];
  readonly originalFileNames: readonly string[];
}

const page = laterApart("page");
const worker = laterApart("solver");

/** The app is built to be served from any folder of any static host, and from loopback. */
export default defineConfig({
  base: "./",
  publicDir: "src/app/public",
  plugins: [listOfFiles(), page.plugin],
  build: {
    outDir: "dist/app",
    emptyOutDir: true,
    target: "es2023",
    // the server's policy takes no data: fonts
    assetsInlineLimit: 0,
    rolldownOptions: {
      // how long plugins took is no warning to whoever starts the app on a slow machine
      checks: { pluginTimings: false },
      input: { index: "index.html", offline: "src/app/host/offline-worker.ts" },
      output: {
        // the page asks for this one by its name, and its scope is the folder that it stands in
        entryFileNames: ({ name }) => (name === "offline" ? "offline.js" : "assets/[name]-[hash].js"),
        codeSplitting: page.codeSplitting,
        chunkFileNames: page.chunkFileNames,
        assetFileNames: page.assetFileNames,
      },
    },
  },
  worker: {
    format: "es",
    plugins: () => [worker.plugin],
    rolldownOptions: {
      checks: { pluginTimings: false },
      output: { codeSplitting: worker.codeSplitting, chunkFileNames: worker.chunkFileNames },
    },
  },
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
});
