/** The manual of the command line is run: every example, in the order of the page, on the files that the examples before it made. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { root } from "../../scripts/step.js";
import type { Io } from "../../src/cli/io.ts";
import { programOf } from "../../src/cli/program.ts";
import { run } from "../../src/cli/run.ts";
import { memoryIo } from "./memory-io.ts";

const manual = readFileSync(join(root, "docs/cli.md"), "utf8");
const verbs = programOf({} as Io, () => undefined).commands;

interface Example {
  readonly command: string;
  /** Lines of its answer, in order; undefined stands for lines left out. */
  readonly shown: readonly (string | undefined)[];
}

const examples: readonly Example[] = [...manual.matchAll(/```console\n([\s\S]*?)```/g)].flatMap(([, block = ""]) =>
  block
    .split(/^\$ /m)
    .slice(1)
    .map((part): Example => {
      const [command = "", ...lines] = part.trimEnd().split("\n");
      return { command, shown: lines.map((line) => (line === "…" ? undefined : line)) };
    }),
);

/** A ring-down as an oscilloscope writes it: the secondary's first mode, Q of 100, as a loop picks it up. */
const ringDown = `time (s),loop (V)\n${Array.from({ length: 4000 }, (_, n) => {
  const time = n * 50e-9;
  const value = Math.exp((-Math.PI * 316e3 * time) / 100) * Math.sin(2 * Math.PI * 316e3 * time);
  return `${time.toExponential(6)},${value.toFixed(6)}`;
}).join("\n")}\n`;

/** Figures move when physics is mended; what a page says about them does not. */
const withoutFigures = (line: string) =>
  line
    .replace(/\d+(\.\d+)?(e[-+]?\d+)?/g, "0")
    .replace(/ +/g, " ")
    .trimEnd();

describe("the manual of the command line", () => {
  const world = memoryIo({ "cold.csv": ringDown });
  const answers = new Map<string, { code: number; lines: readonly string[] }>();

  beforeAll(async () => {
    for (const { command } of examples) {
      world.printed.out = "";
      world.printed.err = "";
      const code = await run(command.split(" ").slice(1), world);
      answers.set(command, { code, lines: (world.printed.err + world.printed.out).split("\n").map(withoutFigures) });
    }
  }, 120_000);

  it.each(examples.map((example) => [example.command, example] as const))("%s", (command, { shown }) => {
    const { code, lines } = answers.get(command)!;
    expect(command).toMatch(/^coilwright /);
    expect(code).not.toBe(2);
    let from = 0;
    let gap = false;
    for (const line of shown) {
      if (line === undefined) {
        gap = true;
        continue;
      }
      const at = lines.indexOf(withoutFigures(line), from);
      expect([line, at >= 0]).toEqual([line, true]);
      if (!gap) expect([line, at]).toEqual([line, from]);
      from = at + 1;
      gap = false;
    }
  });

  it.each(verbs.map((verb) => [verb.name(), verb] as const))(
    "has a chapter on %s with an example and every option",
    (name, verb) => {
      const chapter = manual.split(/^## /m).find((part) => part.startsWith(`${name}\n`));
      expect(chapter, `## ${name}`).toBeDefined();
      expect(chapter).toContain(`$ coilwright ${name}`);
      const general = manual.slice(0, manual.indexOf("## new"));
      for (const { long } of verb.options) {
        const told = `${chapter}${long === "--json" ? general : ""}`;
        expect([long, told.includes(long!)]).toEqual([long, true]);
      }
    },
  );
});
