/** Promises of the house that a reader of one file cannot see kept: they are looked up in every file of `src/`. */
import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { edges, layers, readers } from "../../scripts/layers.cjs";

const src = fileURLToPath(new URL("../../src", import.meta.url));
const files = readdirSync(src, { recursive: true, encoding: "utf8" })
  .filter((path) => /\.tsx?$/.test(path) && !path.endsWith(".d.ts"))
  .map((path) => path.replaceAll("\\", "/"))
  .sort();

const parse = (path: string, text: string) => ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
const parseFile = (path: string) => parse(path, readFileSync(`${src}/${path}`, "utf8"));

/** Where in a file something stands that should not, e.g. `fields/a.ts:12 Math.random`. */
function findNodes(file: ts.SourceFile, wrong: (node: ts.Node) => string | undefined): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node) => {
    const what = wrong(node);
    if (what !== undefined) {
      const { line } = file.getLineAndCharacterOfPosition(node.getStart());
      found.push(`${file.fileName}:${line + 1} ${what}`);
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

const moods = new Set(["Math.random", "Date.now", "performance.now", "crypto.getRandomValues", "crypto.randomUUID"]);
const places = new Set([
  "document",
  "window",
  "navigator",
  "localStorage",
  "fetch",
  "process",
  "setTimeout",
  "setInterval",
]);

/** Names that a file gives to something of its own: a reader may call its YAML document `document`. */
function ownNames(file: ts.SourceFile): ReadonlySet<string> {
  const names = new Set<string>();
  const visit = (node: ts.Node) => {
    const declares = ts.isParameter(node) || ts.isBindingElement(node) || ts.isVariableDeclaration(node);
    if (declares && ts.isIdentifier(node.name)) names.add(node.name.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return names;
}

/** Clock, chance, screen, network and process, where a file uses the platform's. */
function impurities(file: ts.SourceFile): string[] {
  const own = ownNames(file);
  return findNodes(file, (node) => {
    if (ts.isPropertyAccessExpression(node) && moods.has(node.getText())) return node.getText();
    if (ts.isNewExpression(node) && node.expression.getText() === "Date" && !node.arguments?.length)
      return "new Date()";
    const platform = ts.isIdentifier(node) && places.has(node.text) && !own.has(node.text) && !isMember(node);
    return platform ? node.text : undefined;
  });
}
const isMember = (node: ts.Identifier): boolean =>
  (ts.isPropertyAccessExpression(node.parent) || ts.isPropertyAssignment(node.parent)) && node.parent.name === node
    ? true
    : ts.isPropertySignature(node.parent);

/** Words that would give leave to stand next to it. */
const permission = /\b(?:safe|safely|safety margin|harmless|compliant|permitted|allowed|no danger|not dangerous)\b/i;
/** Text for people that holds such a word: strings, templates and text between tags. */
const permissions = (file: ts.SourceFile): string[] =>
  findNodes(file, (node) =>
    (ts.isStringLiteralLike(node) || ts.isTemplateLiteralToken(node) || ts.isJsxText(node)) &&
    permission.test(node.text)
      ? node.text.trim()
      : undefined,
  );

/** A statement of a front door that is more than a door. */
const codeInDoor = (file: ts.SourceFile): string[] =>
  file.statements
    .filter((one) => !(ts.isExportDeclaration(one) && one.moduleSpecifier !== undefined))
    .map((one) => `${file.fileName}: ${one.getText().split("\n")[0]}`);

describe("the sources", () => {
  it("are found", () => {
    expect(files.length).toBeGreaterThan(50);
  });

  it("below the edges know no clock, no unseeded chance, no screen, no network and no process", () => {
    const pure = new Set([...layers.map(({ folder }) => folder), readers.folder]);
    const pureFiles = files.filter((path) => pure.has(path.split("/")[0] ?? ""));
    expect(pureFiles.length).toBeGreaterThan(30);
    expect(pureFiles.flatMap((path) => impurities(parseFile(path)))).toEqual([]);
  });

  it.each([
    ["const x = Math.random();", "Math.random"],
    ["const t = Date.now();", "Date.now"],
    ["const t = new Date();", "new Date()"],
    ["document.title = '';", "document"],
    ["export const a = () => fetch('/');", "fetch"],
    ["if (process.env['X']) {}", "process"],
  ])("would be caught at %s", (text, what) => {
    expect(impurities(parse("planted.ts", text))).toEqual([`planted.ts:1 ${what}`]);
  });

  it.each([
    "const d = new Date(0);",
    "const { window } = room;",
    "room.window.x;",
    "const f = (document: Tree) => document.range;",
  ])("would not be caught at %s", (text) => {
    expect(impurities(parse("planted.ts", text))).toEqual([]);
  });

  it("say nothing that could be taken for a permission", () => {
    expect(files.flatMap((path) => permissions(parseFile(path)))).toEqual([]);
    const planted = parse("planted.tsx", "const a = `3 m is safe`; const b = <p>Harmless.</p>; // safe in a comment");
    expect(permissions(planted)).toHaveLength(2);
  });

  it("keep no code in a front door", () => {
    const doors = files.filter((path) => basename(path) === "index.ts");
    expect(doors.length).toBeGreaterThan(0);
    expect(doors.flatMap((path) => codeInDoor(parseFile(path)))).toEqual([]);
  });

  it("would be caught with code in a front door", () => {
    const planted = parse("index.ts", 'export { a } from "./a.ts";\nexport * from "./b.ts";\nexport const c = 1;\n');
    expect(codeInDoor(planted)).toEqual(["index.ts: export const c = 1;"]);
  });

  it("switch off no check of the compiler", () => {
    const silenced = files.filter((path) =>
      /@ts-(?:ignore|nocheck|expect-error)/.test(readFileSync(`${src}/${path}`, "utf8")),
    );
    expect(silenced).toEqual([]);
  });

  it("stand in a folder of the table", () => {
    const known = new Set([...layers, readers, ...edges].map(({ folder }) => folder));
    expect(files.filter((path) => path.includes("/") && !known.has(path.split("/")[0] ?? ""))).toEqual([]);
  });
});
