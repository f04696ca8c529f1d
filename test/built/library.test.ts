/** The library as somebody else's project sees it: the built module, and the types that come with it. */
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import { demoCoil } from "../../scripts/demo-coil.js";
import { root } from "../../scripts/step.js";

type Library = typeof import("../../src/index.ts");

describe("the built library", () => {
  it("reads, solves and judges a coil without any package beside it", async () => {
    const { readCoil, solve, assess }: Library = await import(pathToFileURL(join(root, "dist/index.js")).href);
    const file = readCoil(await readFile(demoCoil, "utf8"));
    expect(file.coil?.name).toBe("Inkwell");
    const solution = solve(file.coil!);
    expect(solution.figures.get("secondary.f1")).toMatchObject({ unit: "Hz" });
    expect(assess({ file, solution })).toBeInstanceOf(Array);
  });
});

describe("a folder's front door", () => {
  it("can be entered by itself, without the rest of the library", async () => {
    const { readQuantity }: typeof import("../../src/units/index.ts") = await import(
      pathToFileURL(join(root, "dist/units.js")).href
    );
    expect(readQuantity("3/8 in", { dimension: "length" })).toMatchObject({
      quantity: { value: expect.closeTo(0.009525, 12) },
    });
  });
});

describe("the published types", () => {
  /** What a strict compiler says of a program that uses the package. */
  const complaints = (text: string, module: ts.ModuleKind, moduleResolution: ts.ModuleResolutionKind) => {
    const program = join(root, "test/built/user.mts");
    const options: ts.CompilerOptions = {
      strict: true,
      noEmit: true,
      skipLibCheck: false,
      target: ts.ScriptTarget.ES2023,
      lib: ["lib.es2023.d.ts", "lib.dom.d.ts"],
      types: [],
      module,
      moduleResolution,
    };
    const host = ts.createCompilerHost(options);
    const { getSourceFile, fileExists, readFile: read } = host;
    host.fileExists = (path) => path === program || fileExists(path);
    host.readFile = (path) => (path === program ? text : read(path));
    host.getSourceFile = (path, ...rest) =>
      path === program ? ts.createSourceFile(path, text, ts.ScriptTarget.ES2023) : getSourceFile(path, ...rest);
    return ts
      .getPreEmitDiagnostics(ts.createProgram([program], options, host))
      .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, "\n"));
  };

  it.each([
    ["a bundler", ts.ModuleKind.ESNext, ts.ModuleResolutionKind.Bundler],
    ["Node", ts.ModuleKind.NodeNext, ts.ModuleResolutionKind.NodeNext],
  ])("hold for %s, and refuse a wrong use", (_whose, module, resolution) => {
    const right =
      'import { readCoil, solve } from "coilwright";\nconst { coil } = readCoil("");\nif (coil) solve(coil);\n';
    expect(complaints(right, module, resolution)).toEqual([]);
    const wrong = 'import { solve } from "coilwright";\nsolve("a coil");\n';
    expect(complaints(wrong, module, resolution)).toEqual([expect.stringContaining("not assignable")]);
  });
});
