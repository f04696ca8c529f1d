import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/quantities.ts";
import { sources } from "../../src/catalogue/sources.ts";
import { withStandoff } from "../../src/findings/index.ts";
import { solve } from "../../src/workbench/solve.ts";
import { tableCoilFile } from "./coils.ts";
import { figuresPage } from "./figures-page.ts";

const { coil } = tableCoilFile();
const solution = solve(coil);
const made = figuresPage(withStandoff(coil, solution).solution.figures);

describe("docs/figures.md", () => {
  // law: the page says what the catalogue says; `npx vitest run test/docs/figures.test.ts --update` writes it anew
  it("is current", async () => {
    await expect(made).toMatchFileSnapshot(fileURLToPath(new URL("../../docs/figures.md", import.meta.url)));
  });

  it("lists every figure and every source", () => {
    const keys = [...quantities.keys(), ...sources.keys()];
    expect(keys.length).toBeGreaterThan(80);
    expect(keys.filter((key) => !made.includes(`| \`${key}\` |`))).toEqual([]);
  });
});
