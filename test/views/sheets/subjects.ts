/** Subjects that the sheets are tried on: the examples, and one made as awkward as a file may be. */
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { hazards } from "../../../src/description/hazards.ts";
import { judgedBursts } from "../../../src/findings/index.ts";
import { readCoil } from "../../../src/readers/coil-file.ts";
import type { SheetSubject } from "../../../src/views/sheets/index.ts";
import { solve } from "../../../src/workbench/solve.ts";

export const examples = ["inkwell", "thimble", "belfry"] as const;

export const exampleText = (name: (typeof examples)[number]): string =>
  readFileSync(fileURLToPath(new URL(`../../../examples/${name}.yaml`, import.meta.url)), "utf8");

/** Every hazard of the show acknowledged. */
export const acknowledged = `\nshow: { acknowledged: [ ${Object.keys(hazards).join(", ")} ] }\n`;

export const longName =
  "Wilhelmina-Charlotte's Great Double-Resonant Thundermachine No. 47 for the Assembly Hall of the Observatory WWWWWWWWWWWWWWWWWWWWWWWW";

const known = new Map<string, SheetSubject>();

/** Reads and solves a text once. */
export function subjectOf(text: string, fileName: string): SheetSubject {
  const before = known.get(text);
  if (before) return { ...before, fileName };
  const file = readCoil(text);
  const { coil } = file;
  if (!coil) throw new Error(`not a coil: ${file.findings.map(({ what }) => what).join("; ")}`);
  const solution = solve(coil);
  const subject = { file, coil, solution, ...judgedBursts(coil, solution, {}, {}), fileName };
  known.set(text, subject);
  return subject;
}

export const exampleSubject = (name: (typeof examples)[number]): SheetSubject =>
  subjectOf(exampleText(name) + acknowledged, `${name}.yaml`);

/** The same coil under names that no title block was made for. */
export function longNamed(subject: SheetSubject): SheetSubject {
  return {
    ...subject,
    coil: { ...subject.coil, name: longName },
    fileName: "a-very-long-file-name-that-somebody-thought-was-a-good-idea-at-the-time-2026-final-final.yaml",
  };
}

/** A show with every place of the floor filled, operator, second person and breaker close together. */
export const crowdedSubject = (): SheetSubject =>
  subjectOf(
    `${exampleText("inkwell")}
show:
  barrier: 8.63 m
  room: { width: 17 m, depth: 19 m, behind: 9 m, airing: changed }
  operator: { at: 6 m, bearing: 90° }
  second: { at: 6.5 m, bearing: 95° }
  breaker: { at: 6.6 m, bearing: 96° }
  deadMan: true
  exit: { at: 8 m, bearing: 180° }
  earth: { at: 2 m, bearing: 180°, lead: 3 m }
  acknowledged: [ ${Object.keys(hazards).join(", ")} ]
`,
    "crowded.yaml",
  );
