import { defineConfig } from "vite";

/** The app is built to be served from any folder of any static host, and from loopback. */
export default defineConfig({
  base: "./",
  publicDir: "src/app/public",
  build: {
    outDir: "dist/app",
    emptyOutDir: true,
    target: "es2023",
    // the server's policy takes no data: fonts
    assetsInlineLimit: 0,
    license: { fileName: "licences.md" },
    reportCompressedSize: false,
  },
  worker: { format: "es" },
  server: { host: "127.0.0.1" },
  preview: { host: "127.0.0.1" },
});
