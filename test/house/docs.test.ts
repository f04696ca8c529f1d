/** The documents name files, folders and verbs. What they name must be there. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { edges, layers, readers } from "../../scripts/layers.cjs";
import { root } from "../../scripts/step.js";
import type { Io } from "../../src/cli/io.ts";
import { programOf } from "../../src/cli/program.ts";

const read = (path: string) => readFileSync(join(root, path), "utf8");
const documents = [
  "README.md",
  "ARCHITECTURE.md",
  "CONTRIBUTING.md",
  ...readdirSync(join(root, "docs"))
    .filter((name) => name.endsWith(".md"))
    .map((name) => `docs/${name}`),
];
/** Files that the reader of a document is asked to make. */
const toBeMade = /\/(?:yours|your-rule|dome|dome\.test)\.ts$/;

/** The verbs as the command line declares them; its world is not touched by that. */
const verbs = programOf({} as Io, () => undefined).commands.map((command) => command.name());

/** Paths in code marks, e.g. `src/workbench/solve.ts`. */
const pathsIn = (text: string) =>
  [...text.matchAll(/`((?:src|test|scripts|bench|docs|examples|bin|app|workbench)\/[\w./-]*)`/g)].map(([, path]) =>
    /^(?:app|workbench)\//.test(path!) ? `src/${path}` : path!,
  );
const linksIn = (text: string) => [...text.matchAll(/\]\(([^)#:]+)\)/g)].map(([, path]) => path!);

describe.each(documents)("%s", (document) => {
  const text = read(document);

  it("names paths that are there", () => {
    const gone = pathsIn(text).filter((path) => !toBeMade.test(path) && !existsSync(join(root, path)));
    expect(gone).toEqual([]);
  });

  it("links to documents that are there", () => {
    const gone = linksIn(text).filter((path) => !existsSync(join(root, document, "..", path)));
    expect(gone).toEqual([]);
  });

  it("shows verbs that the command line has", () => {
    const shown = [...text.matchAll(/coilwright (\w+) [\w.-]*(?:\.yaml|FILE)/g)].map(([, verb]) => verb!);
    expect(shown.filter((verb) => !verbs.includes(verb))).toEqual([]);
  });

  it("shows npm scripts that the package has", () => {
    const scripts = Object.keys(JSON.parse(read("package.json")).scripts);
    const named = [...text.matchAll(/npm (?:run )?(start|test|check|fix|build|bench|docs)\b/g)].map(
      ([, name]) => name!,
    );
    expect(named.filter((name) => !scripts.includes(name))).toEqual([]);
  });
});

describe("README.md", () => {
  it("shows every verb that works on a coil", () => {
    const text = read("README.md");
    const forFilesAlone = ["format", "migrate", "schema", "completion"];
    expect(verbs.filter((verb) => !forFilesAlone.includes(verb) && !text.includes(`coilwright ${verb} `))).toEqual([]);
  });
});

describe("ARCHITECTURE.md", () => {
  const text = read("ARCHITECTURE.md");
  const row = (folder: string) =>
    text.split("\n").find((line) => line.startsWith("|") && line.includes(`\`${folder}\``));

  it("has a row for every folder of the table, and no other folder is there", () => {
    const known = [...layers, readers, ...edges].map(({ folder }) => folder);
    expect(known.filter((folder) => row(folder) === undefined)).toEqual([]);
    const folders = readdirSync(join(root, "src"), { withFileTypes: true }).filter((one) => one.isDirectory());
    expect(folders.map(({ name }) => name).filter((name) => !known.includes(name))).toEqual([]);
  });

  it("calls no folder reserved that is there", () => {
    const built = layers.filter(({ folder }) => existsSync(join(root, "src", folder)));
    expect(built.filter(({ folder }) => row(folder)?.includes("reserved"))).toEqual([]);
  });
});
