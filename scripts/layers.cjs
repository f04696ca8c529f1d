/**
 * The one table of layers. The import rules, their test and the drawing in ARCHITECTURE.md stand on it.
 *
 * A folder may import folders of a lower level, and itself. Folders of one level do not import each other.
 * @typedef {{ level: number, folder: string }} Layer
 * @type {readonly Layer[]}
 */
const layers = [
  { level: 0, folder: "units" },
  { level: 0, folder: "numerics" },
  { level: 1, folder: "catalogue" },
  { level: 2, folder: "parts" },
  { level: 3, folder: "description" },
  { level: 4, folder: "geometry" },
  { level: 5, folder: "fields" },
  { level: 6, folder: "resonator" },
  { level: 7, folder: "circuit" },
  { level: 8, folder: "burst" },
  { level: 9, folder: "stress" },
  { level: 10, folder: "programme" },
  { level: 10, folder: "sound" },
  { level: 10, folder: "matching" },
  { level: 11, folder: "safety" },
  { level: 12, folder: "workbench" },
  { level: 13, folder: "findings" },
  { level: 14, folder: "views" },
];

/** Text and bytes into descriptions and back: sees the levels up to this one. */
const readers = { folder: "readers", upTo: 3 };

/**
 * Where the program meets files, the network and the screen. They use these levels whole, the readers, the folders that hold
 * words and formats (units, catalogue), and the types alone of the other levels 0 to 3. `also` names the edges that an edge
 * may use: the command line starts the server.
 */
const edges = [
  { folder: "cli", also: ["server"] },
  { folder: "app", also: [] },
  { folder: "server", also: [] },
];
const edgesUse = { from: 12, to: 14, typesUpTo: 3, valuesOf: ["units", "catalogue"] };

/** Packages that belong to one folder alone, whatever its level. Screen and paper share one font, so that it stands in no list. */
const packagesOf = {
  app: ["preact", "@preact/signals", "uplot", "comlink", "idb-keyval", "fflate", "@fontsource/b612-mono"],
  cli: ["commander"],
  server: ["open"],
};

module.exports = { layers, readers, edges, edgesUse, packagesOf };
