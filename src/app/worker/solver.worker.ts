/** The slow work, off the page's thread: text → solution and findings, field maps, intervals, explanations. */
import { expose } from "comlink";
import { assess } from "../../findings/assess.ts";
import { readCoil } from "../../readers/coil-file.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { intervals } from "../../workbench/doubts.ts";
import { explain } from "../../workbench/explain.ts";
import { fieldMap } from "../../workbench/field-map.ts";
import { solve } from "../../workbench/solve.ts";
import type { Answer, Explained, MappedField, MapWindow, Study } from "./answer.ts";

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
  /** The quick half: what a drag needs. */
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
  /** Intervals of all figures, and the findings that weigh them. */
  study(text: string): Study | undefined {
    const { file, solution } = work(text);
    if (solution === undefined) return undefined;
    const doubts = intervals({ file, solution, solve });
    return { text, doubts, findings: assess({ file, solution, doubts }) };
  },
  map(text: string, window: MapWindow): MappedField | undefined {
    const { coil } = work(text).file;
    return coil === undefined ? undefined : { text, map: fieldMap(coil, window) };
  },
  explain(text: string, id: string): Explained {
    const { file, solution } = work(text);
    return { text, explanation: solution === undefined ? undefined : explain({ file, solution, id, solve }) };
  },
};

export type Bench = typeof bench;
expose(bench);
