/** Rules of import direction, made from the table in scripts/layers.cjs. Type-only imports count. */
const { layers, readers, edges, edgesUse, packagesOf } = require("./scripts/layers.cjs");

/** @param {readonly string[]} folders */
const inside = (folders) => `^src/(?:${folders.join("|")})/`;
const edgeFolders = edges.map((edge) => edge.folder);
const pureFolders = [...layers.map((layer) => layer.folder), readers.folder];
const everyFolder = [...pureFolders, ...edgeFolders];
/** @param {string} folder @param {readonly string[]} allowed */
const allBut = (folder, allowed) => everyFolder.filter((other) => other !== folder && !allowed.includes(other));
/** @param {number} from @param {number} to */
const levels = (from, to) =>
  layers.filter((layer) => layer.level >= from && layer.level <= to).map((layer) => layer.folder);

const downwardOnly = layers.map(({ level, folder }) => ({
  name: `${folder}-imports-downward`,
  comment: `src/${folder} (level ${level}) may import levels below ${level} only`,
  severity: "error",
  from: { path: inside([folder]) },
  to: { path: inside(allBut(folder, levels(0, level - 1))) },
}));

const readersImport = {
  name: "readers-import-descriptions",
  comment: `src/${readers.folder} may import levels 0 to ${readers.upTo} only`,
  severity: "error",
  from: { path: inside([readers.folder]) },
  to: { path: inside(allBut(readers.folder, levels(0, readers.upTo))) },
};

const edgesImport = edges.flatMap(({ folder, also }) => {
  const whole = [...levels(edgesUse.from, edgesUse.to), readers.folder, ...also, ...edgesUse.valuesOf];
  const typesOnly = levels(0, edgesUse.typesUpTo).filter((other) => !whole.includes(other));
  return [
    {
      name: `${folder}-stays-thin`,
      comment: `src/${folder} may import levels ${edgesUse.from} to ${edgesUse.to}, the readers, ${edgesUse.valuesOf.join(" and ")}`,
      severity: "error",
      from: { path: inside([folder]) },
      to: { path: inside(allBut(folder, [...whole, ...typesOnly])) },
    },
    {
      name: `${folder}-takes-types-only`,
      comment: `src/${folder} may import nothing but types from levels 0 to ${edgesUse.typesUpTo}`,
      severity: "error",
      from: { path: inside([folder]) },
      to: { path: inside(typesOnly), dependencyTypesNot: ["type-only"] },
    },
  ];
});

const ownPackages = Object.entries(packagesOf).map(([folder, packages]) => ({
  name: `packages-of-${folder}`,
  comment: `${packages.join(", ")} may be imported by src/${folder} only`,
  severity: "error",
  from: { path: "^src/", pathNot: inside([folder]) },
  to: { path: packages.map((name) => `node_modules/${name}/`).join("|") },
}));

module.exports = {
  forbidden: [
    ...downwardOnly,
    readersImport,
    ...edgesImport,
    ...ownPackages,
    {
      name: "pure-below-the-edges",
      comment: "files, network, processes and clocks of the platform belong to src/cli, src/app and src/server",
      severity: "error",
      from: { path: inside(pureFolders) },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "every-folder-has-a-level",
      comment: "a folder of src/ that scripts/layers.cjs does not know",
      severity: "error",
      from: { path: "^src/[^/]+/", pathNot: inside(everyFolder) },
      to: {},
    },
    {
      name: "library-front-door",
      comment: "src/index.ts offers the library, not the edges",
      severity: "error",
      from: { path: "^src/[^/]+$" },
      to: { path: inside(edgeFolders) },
    },
    {
      name: "no-circles",
      comment:
        "two files that need each other to run are one idea in two places (types alone may go both ways in a folder)",
      severity: "error",
      from: { path: "^src/" },
      to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } },
    },
    {
      name: "no-loose-ends",
      comment: "an import that leads nowhere",
      severity: "error",
      from: { path: "^src/" },
      to: { couldNotResolve: true },
    },
    {
      name: "nothing-from-the-tests",
      comment: "src/ stands without test/, bench/ and scripts/",
      severity: "error",
      from: { path: "^src/" },
      to: { path: "^(?:test|bench|scripts|bin)/" },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    moduleSystems: ["es6"],
    enhancedResolveOptions: {
      extensions: [".ts", ".tsx", ".js", ".mjs", ".d.ts"],
      conditionNames: ["import", "types"],
    },
  },
};
