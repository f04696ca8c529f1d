/** The slow work, off the page's thread: text → solution and findings, field maps, explanations. */
import { expose } from "comlink";
import { assess } from "../../findings/assess.ts";
import { readCoil } from "../../readers/coil-file.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { explain } from "../../workbench/explain.ts";
import { fieldMap } from "../../workbench/field-map.ts";
import { solve } from "../../workbench/solve.ts";
import type { Answer, MappedField, MapWindow } from "./answer.ts";

interface Worked {
  readonly text: string;
  readonly file: CoilFile;
  readonly solution?: Solution;
  readonly failed?: string;
}

let last: Worked | undefined;

function work(text: string): Worked {
  if (last?.text === text) return last;
  const file = readCoil(text);
  last = { text, file };
  if (file.coil === undefined) return last;
  try {
    last = { text, file, solution: solve(file.coil) };
  } catch (error) {
    last = { text, file, failed: error instanceof Error ? error.message : String(error) };
  }
  return last;
}

const bench = {
  answer(text: string): Answer {
    const { file, solution, failed } = work(text);
    const findings = assess(solution === undefined ? { file } : { file, solution });
    return {
      text,
      findings,
      ...(solution === undefined ? {} : { solution }),
      ...(failed === undefined ? {} : { failed }),
    };
  },
  map(text: string, window: MapWindow): MappedField | undefined {
    const { coil } = work(text).file;
    return coil === undefined ? undefined : { text, map: fieldMap(coil, window) };
  },
  explain(text: string, id: string) {
    const { file, solution } = work(text);
    return solution === undefined ? undefined : explain({ file, solution, id });
  },
};

export type Bench = typeof bench;
expose(bench);
