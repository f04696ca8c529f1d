/**
 * The slow work, off the page's thread: coil file → solution and findings, field maps, intervals, explanations.
 * Reading stays with the page, so that the reader is sent to the browser once.
 */
import { expose, transfer } from "comlink";
import type { Coil } from "../../description/coil.ts";
import { assess } from "../../findings/assess.ts";
import { settingAtLimits } from "../../findings/limits.ts";
import { rules } from "../../findings/rule-list.ts";
import type { BurstSetting } from "../../workbench/burst-contract.ts";
import { study as studyBurst } from "../../workbench/burst-stage.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { intervals } from "../../workbench/doubts.ts";
import { explain } from "../../workbench/explain.ts";
import { fieldMap } from "../../workbench/field-map.ts";
import { solve } from "../../workbench/solve.ts";
import type { Answer, Explained, MappedField, MapWindow, Study } from "./answer.ts";

interface Worked {
  readonly text: string;
  readonly solution?: Solution;
  readonly failed?: string;
}

let last: Worked | undefined;

function solved({ text, coil }: CoilFile): Worked {
  if (last?.text === text) return last;
  last = { text };
  if (coil === undefined) return last;
  try {
    last = { text, solution: solve(coil) };
  } catch (error) {
    last = { text, failed: error instanceof Error ? error.message : String(error) };
  }
  return last;
}

/** Sensitivities move one number at a time and solve again; figures share most of those solves, so they are kept while the text stays. */
const moved = new Map<string, Solution>();
let movedFor: string | undefined;
const mostMoved = 400;

function solveKept(coil: Coil): Solution {
  const key = JSON.stringify(coil);
  const known = moved.get(key) ?? solve(coil);
  if (moved.size >= mostMoved) moved.clear();
  moved.set(key, known);
  return known;
}

function keepMovesOf({ text }: CoilFile): void {
  if (movedFor !== text) moved.clear();
  movedFor = text;
}

/** Lets questions that came meanwhile go first. */
const breathe = () => new Promise((done) => setTimeout(done));

let studies = 0;

const bench = {
  /** The quick half: what a drag needs. */
  answer(file: CoilFile): Answer {
    const { solution, failed } = solved(file);
    const findings = assess(solution === undefined ? { file } : { file, solution });
    return {
      text: file.text,
      findings,
      ...(solution === undefined ? {} : { solution }),
      ...(failed === undefined ? {} : { failed }),
    };
  },
  /** Intervals of all figures, and the findings that weigh them; undefined where a newer text was asked about meanwhile. */
  async study(file: CoilFile): Promise<Study | undefined> {
    const mine = ++studies;
    const { solution } = solved(file);
    if (solution === undefined) return undefined;
    keepMovesOf(file);
    for (const id of solution.figures.keys()) {
      explain({ file, solution, id, solve: solveKept });
      await breathe();
      if (mine !== studies) return undefined;
    }
    const doubts = intervals({ file, solution, solve: solveKept });
    return { text: file.text, doubts, findings: assess({ file, solution, doubts }) };
  },
  map({ text, coil }: CoilFile, window: MapWindow): MappedField | undefined {
    return coil === undefined ? undefined : { text, map: fieldMap(coil, window) };
  },
  explain(file: CoilFile, id: string): Explained {
    const { solution } = solved(file);
    keepMovesOf(file);
    return {
      text: file.text,
      explanation: solution === undefined ? undefined : explain({ file, solution, id, solve: solveKept }),
    };
  },
};

export type Bench = typeof bench;
expose(bench);
