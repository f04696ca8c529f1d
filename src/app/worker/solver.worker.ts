/**
 * The slow work, off the page's thread: coil file → solution and findings, field maps, intervals, explanations.
 * Reading stays with the page, so that the reader is sent to the browser once.
 */
import { expose, transfer } from "comlink";
import type { Coil } from "../../description/coil.ts";
import { assess } from "../../findings/assess.ts";
import { settingAtLimits } from "../../findings/limits.ts";
import { rules } from "../../findings/rule-list.ts";
import type { BurstSetting, BurstStudy } from "../../workbench/burst-contract.ts";
import { study as studyBurst } from "../../workbench/burst-stage.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { intervals } from "../../workbench/doubts.ts";
import { explain } from "../../workbench/explain.ts";
import { fieldMap } from "../../workbench/field-map.ts";
import { solve } from "../../workbench/solve.ts";
import type { Answer, Explained, MappedField, MapWindow, StudiedBurst, Study } from "./answer.ts";

interface Worked {
  readonly text: string;
  /** Of the coil at rest. */
  readonly solution?: Solution;
  /** The burst at the file's own setting, and at what its interrupter would still let through. */
  readonly bursts?: { readonly study: BurstStudy; readonly atLimits?: BurstStudy };
  readonly failed?: string;
}

let last: Worked | undefined;

function burstsOf(coil: Coil, solution: Solution, setting: BurstSetting = {}): NonNullable<Worked["bursts"]> {
  const limits = settingAtLimits(coil, setting);
  return {
    study: studyBurst(coil, solution, setting),
    ...(limits === undefined ? {} : { atLimits: studyBurst(coil, solution, limits) }),
  };
}

/** A solution with the figures of a burst beside its own. */
const withBurst = (solution: Solution, { figures }: BurstStudy): Solution => ({
  ...solution,
  figures: new Map([...solution.figures, ...figures]),
});

const roomOfRule = new Map(rules.map(({ id, room }) => [id, room]));

function solved({ text, coil }: CoilFile): Worked {
  if (last?.text === text) return last;
  last = { text };
  if (coil === undefined) return last;
  try {
    const solution = solve(coil);
    last = { text, solution, bursts: burstsOf(coil, solution) };
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

/** The same with the burst at a setting, for sensitivities of its figures. */
const solveWithBurst = (setting: BurstSetting) => (coil: Coil) => {
  const solution = solveKept(coil);
  return withBurst(solution, studyBurst(coil, solution, setting));
};

/** Lets questions that came meanwhile go first. */
const breathe = () => new Promise((done) => setTimeout(done));

let studies = 0;

const bench = {
  /** The quick half: what a drag needs. */
  answer(file: CoilFile): Answer {
    const { solution, bursts, failed } = solved(file);
    const findings = assess(solution === undefined ? { file } : { file, solution, ...bursts });
    return {
      text: file.text,
      findings,
      ...(solution === undefined ? {} : { solution }),
      ...(bursts === undefined ? {} : { burstFigures: bursts.study.figures }),
      ...(failed === undefined ? {} : { failed }),
    };
  },
  /** Intervals of all figures, and the findings that weigh them; undefined where a newer text was asked about meanwhile. */
  async study(file: CoilFile): Promise<Study | undefined> {
    const mine = ++studies;
    const { solution, bursts } = solved(file);
    if (solution === undefined) return undefined;
    keepMovesOf(file);
    for (const id of solution.figures.keys()) {
      explain({ file, solution, id, solve: solveKept });
      await breathe();
      if (mine !== studies) return undefined;
    }
    const doubts = intervals({ file, solution, solve: solveKept });
    return { text: file.text, doubts, findings: assess({ file, solution, ...bursts, doubts }) };
  },
  map({ text, coil }: CoilFile, window: MapWindow): MappedField | undefined {
    return coil === undefined ? undefined : { text, map: fieldMap(coil, window) };
  },
  /** One burst at a setting of the sliders; undefined where the coil could not be solved. */
  burst(file: CoilFile, setting: BurstSetting): StudiedBurst | undefined {
    const { solution } = solved(file);
    if (solution === undefined || file.coil === undefined) return undefined;
    const study = studyBurst(file.coil, solution, setting, { waveforms: true });
    const found = assess({ file, solution, ...burstsOf(file.coil, solution, setting), study });
    const ofRoom = (room: string) => found.filter(({ rule }) => roomOfRule.get(rule) === room);
    const done = {
      text: file.text,
      setting,
      study,
      findings: { burst: ofRoom("burst"), driver: ofRoom("driver") },
    };
    return transfer(done, buffersOf(study));
  },
  explain(file: CoilFile, id: string, setting: BurstSetting): Explained {
    const { solution } = solved(file);
    keepMovesOf(file);
    if (solution === undefined || file.coil === undefined) return { text: file.text, setting, explanation: undefined };
    const ofCoil = solution.figures.has(id);
    const known = ofCoil ? solution : withBurst(solution, studyBurst(file.coil, solution, setting));
    const solveAgain = ofCoil ? solveKept : solveWithBurst(setting);
    return {
      text: file.text,
      setting,
      explanation: explain({ file, solution: known, id, solve: solveAgain }),
    };
  },
};

/** Memory of the sampled arrays, which goes to the page instead of being copied. */
function buffersOf({ waveforms, spectrum, junction }: BurstStudy): ArrayBuffer[] {
  const { energy, ...waves } = waveforms ?? {};
  const arrays = [waves, energy ?? {}, spectrum, junction].flatMap((record): ArrayBufferView[] =>
    Object.values(record),
  );
  return [...new Set(arrays.map(({ buffer }) => buffer))].filter((buffer) => buffer instanceof ArrayBuffer);
}

export type Bench = typeof bench;
expose(bench);
