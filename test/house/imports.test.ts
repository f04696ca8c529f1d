/** The import check is itself checked: each planted tree breaks one rule, and the rule must say so. */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, describe, expect, it } from "vitest";
import { checkImports } from "../../scripts/imports.js";
import { edges, layers, readers } from "../../scripts/layers.cjs";

const planted: string[] = [];

/** Writes files by path under a fresh folder and checks them. */
async function checkPlanted(files: Record<string, string>) {
  const folder = await mkdtemp(join(tmpdir(), "planted-"));
  planted.push(folder);
  for (const [path, text] of Object.entries(files)) {
    await mkdir(dirname(join(folder, path)), { recursive: true });
    await writeFile(join(folder, path), text);
  }
  return checkImports(folder);
}

const value = "export const one = 1;\nexport type One = number;\n";
/** A tree with a file in `from` that imports, by value or by type, a file in `to`. */
const tree = (from: string, to: string, how: "value" | "type" = "value") => ({
  [`src/${from}/near.ts`]:
    how === "value"
      ? `import { one } from "../${to}/far.ts";\nexport const two = one + 1;\n`
      : `import type { One } from "../${to}/far.ts";\nexport type Two = One;\n`,
  [`src/${to}/far.ts`]: value,
});
const rulesBroken = async (files: Record<string, string>) =>
  (await checkPlanted(files)).violations.map((violation) => /\n\s+([a-z-]+):/.exec(violation)?.[1]);

afterEach(async () => {
  for (const folder of planted.splice(0)) await rm(folder, { recursive: true });
});

describe("the direction of imports", () => {
  // law: the table of levels, walked pair by pair
  it("lets every level import every lower one, and none import its equal or its better", async () => {
    const files: Record<string, string> = {};
    const wrong: string[] = [];
    for (const { folder } of layers) files[`src/${folder}/far.ts`] = value;
    for (const from of layers) {
      for (const to of layers) {
        if (from.folder === to.folder) continue;
        const path = `src/${from.folder}/to-${to.folder}.ts`;
        files[path] = `import type { One } from "../${to.folder}/far.ts";\nexport type Two = One;\n`;
        if (to.level >= from.level) wrong.push(`${path} → src/${to.folder}/far.ts`);
      }
    }
    const { violations, modules } = await checkPlanted(files);
    expect(modules).toBe(Object.keys(files).length);
    expect(violations.map((violation) => violation.split("\n")[0]).sort()).toEqual(wrong.sort());
  });

  it.each([
    ["an upward import", "units", "resonator", "value", "units-imports-downward"],
    ["an upward import of a type alone", "fields", "workbench", "type", "fields-imports-downward"],
    ["a sideways import", "programme", "sound", "value", "programme-imports-downward"],
    ["a physics folder that reads files of the edge", "workbench", "server", "type", "workbench-imports-downward"],
    ["readers that compute", "readers", "fields", "value", "readers-import-descriptions"],
    ["an app that computes", "app", "resonator", "type", "app-stays-thin"],
    ["an app that takes more than types below", "app", "description", "value", "app-takes-types-only"],
    ["a server that starts the command line", "server", "cli", "value", "server-stays-thin"],
    ["a folder without a level", "attic", "units", "value", "every-folder-has-a-level"],
  ] as const)("refuses %s", async (_what, from, to, how, rule) => {
    expect(await rulesBroken(tree(from, to, how))).toEqual([rule]);
  });

  it.each([
    ["types of a description in the app", "app", "description", "type"],
    ["formatting of units in the command line", "cli", "units", "value"],
    ["the server in the command line", "cli", "server", "value"],
    ["the readers in the app", "app", "readers", "value"],
  ] as const)("accepts %s", async (_what, from, to, how) => {
    expect(await rulesBroken(tree(from, to, how))).toEqual([]);
  });

  it("refuses files and clocks of the platform below the edges", async () => {
    const read = 'import { readFileSync } from "node:fs";\nexport const text = readFileSync("coil.yaml", "utf8");\n';
    expect(await rulesBroken({ "src/fields/read.ts": read })).toEqual(["pure-below-the-edges"]);
    expect(await rulesBroken({ "src/server/read.ts": read })).toEqual([]);
  });

  it("refuses two files that import each other, and an import that leads nowhere", async () => {
    expect(
      new Set(
        await rulesBroken({
          "src/units/a.ts": 'import { b } from "./b.ts";\nexport const a = () => b;\n',
          "src/units/b.ts": 'import { a } from "./a.ts";\nexport const b = () => a;\n',
        }),
      ),
    ).toEqual(new Set(["no-circles"]));
    expect(
      await rulesBroken({ "src/units/a.ts": 'import { b } from "./gone.ts";\nexport const a = () => b;\n' }),
    ).toEqual(["no-loose-ends"]);
  });

  it("sees nothing in an empty tree, which the caller must treat as a failure", async () => {
    expect((await checkPlanted({ "src/readme.txt": "nothing here" })).modules).toBe(0);
  });

  it("keeps one level for each folder", () => {
    const folders = [...layers.map(({ folder }) => folder), readers.folder, ...edges.map(({ folder }) => folder)];
    expect(new Set(folders).size).toBe(folders.length);
  });
});
