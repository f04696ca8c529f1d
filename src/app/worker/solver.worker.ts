/**
 * The slow work, off the page's thread: coil file → solution and findings, field maps, intervals, explanations.
 * Reading stays with the page, so that the reader is sent to the browser once.
 */
import { expose, transfer } from "comlink";
import type { Coil } from "../../description/coil.ts";
import { assess } from "../../findings/assess.ts";
import { type JudgedBursts, judgedBursts } from "../../findings/judged-bursts.ts";
import { rules } from "../../findings/rule-list.ts";
import { solveWithStandoff, withStandoff } from "../../findings/solve-with-standoff.ts";
import type { FontFiles, SheetFile, SheetFormat } from "../../views/sheets/index.ts";
import { type Approach, approach } from "../../workbench/approach.ts";
import type { BurstSetting, BurstStudy } from "../../workbench/burst-contract.ts";
import { study as studyBurst } from "../../workbench/burst-stage.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { intervals } from "../../workbench/doubts.ts";
import { explain } from "../../workbench/explain.ts";
import { fieldMap } from "../../workbench/field-map.ts";
import type { PracticeRecord } from "../../workbench/practice.ts";
import type { ProgrammeOptions } from "../../workbench/programme-contract.ts";
import { solve } from "../../workbench/solve.ts";
import { solutionWithBurst } from "../../workbench/solve-with-burst.ts";
import type { LaidPapers, PaperSetting } from "../papers/paper-work.ts";
import type {
  KeySound,
  OutputKind,
  OutputSetting,
  ProgrammeAnswer,
  SongSource,
  Stretch,
  Written,
} from "../programme/programme-answer.ts";
import type { StandoffAnswer } from "../standoff/standoff-work.ts";
import type { Answer, BurstDoubts, Explained, MappedField, MapWindow, StudiedBurst, Study } from "./answer.ts";
import type { BenchProgress, BringUpAnswer, CaptureView, MatchAnswer, Sayings } from "./bench-answer.ts";
import { stopAll, stoppable } from "./stopping.ts";

interface Worked {
  readonly text: string;
  /** Of the coil at rest. */
  readonly solution?: Solution;
  /** The bursts that findings stand on, at the file's own setting. */
  readonly bursts?: JudgedBursts;
  readonly failed?: string;
}

let last: Worked | undefined;

/** The figures of a burst with the intervals that come of the streamer's load. */
function withIntervals(solution: Solution, study: BurstStudy, setting: BurstSetting): BurstStudy {
  const { figures } = solutionWithBurst(solution, study, setting);
  return { ...study, figures: new Map([...figures].filter(([id]) => study.figures.has(id))) };
}

const roomOfRule = new Map(rules.map(({ id, room }) => [id, room]));

function solved({ text, coil }: CoilFile): Worked {
  if (last?.text === text) return last;
  last = { text };
  if (coil === undefined) return last;
  try {
    const solution = solve(coil);
    last = { text, solution, bursts: judgedBursts(coil, solution) };
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
  if (movedFor !== text) {
    moved.clear();
    movedBursts.clear();
  }
  movedFor = text;
}

/** The same with the burst at a setting, for sensitivities of its figures. */
const movedBursts = new Map<string, Solution>();

const solveWithBurst = (setting: BurstSetting) => (coil: Coil) => {
  const key = JSON.stringify([coil, setting]);
  const known = movedBursts.get(key);
  if (known !== undefined) return known;
  const solution = solveKept(coil);
  const { figures } = studyBurst(coil, solution, setting);
  const made = { ...solution, figures: new Map([...solution.figures, ...figures]) };
  if (movedBursts.size >= mostMoved) movedBursts.clear();
  movedBursts.set(key, made);
  return made;
};

/** Lets questions that came meanwhile go first. */
const breathe = () => new Promise((done) => setTimeout(done));

let studies = 0;
let burstStudies = 0;

/** Records, match and bring-up: sent to the browser when their room is opened. */
const benchWork = () => import("./bench-work.ts");

/** Sheets of paper: sent to the browser when their room is opened. */
const paperWork = () => import("../papers/paper-work.ts");

/** Songs, their sound and their files: sent to the browser when their room is opened. */
const programmeWork = () => import("../programme/programme-work.ts");

const unreadable = "the file holds no coil that can be read";

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
  /** Intervals of the figures of the burst at the file's own setting; undefined where a newer text was asked about meanwhile. */
  async burstDoubts(file: CoilFile): Promise<BurstDoubts | undefined> {
    const mine = ++burstStudies;
    const { solution: still, bursts } = solved(file);
    if (still === undefined || bursts === undefined) return undefined;
    keepMovesOf(file);
    const solution = solutionWithBurst(still, bursts.study);
    const figures = [...bursts.study.figures.keys()];
    const asking = { file, solution, solve: solveWithBurst({}) };
    for (const id of figures) {
      explain({ ...asking, id });
      await breathe();
      if (mine !== burstStudies) return undefined;
    }
    return { text: file.text, doubts: intervals({ ...asking, figures }) };
  },
  map({ text, coil }: CoilFile, window: MapWindow): MappedField | undefined {
    return coil === undefined ? undefined : { text, map: fieldMap(coil, window) };
  },
  /** What a person does to f1 from near and far; undefined where the coil cannot be solved with one. */
  approach({ coil }: CoilFile): Approach | undefined {
    try {
      return coil && approach(coil);
    } catch {
      return undefined;
    }
  },
  /** One burst at a setting of the sliders; undefined where the coil could not be solved. */
  burst(file: CoilFile, setting: BurstSetting): StudiedBurst | undefined {
    const { solution } = solved(file);
    if (solution === undefined || file.coil === undefined) return undefined;
    const bursts = judgedBursts(file.coil, solution, setting, { waveforms: true });
    const { study } = bursts;
    const found = assess({ file, solution, ...bursts });
    const ofRoom = (room: string) => found.filter(({ rule }) => roomOfRule.get(rule) === room);
    const done = {
      text: file.text,
      setting,
      study: withIntervals(solution, study, setting),
      findings: { burst: ofRoom("burst"), driver: ofRoom("driver") },
    };
    return transfer(done, buffersOf(study));
  },
  explain(file: CoilFile, id: string, setting: BurstSetting): Explained {
    const { solution, bursts } = solved(file);
    keepMovesOf(file);
    if (solution === undefined || file.coil === undefined) return { text: file.text, setting, explanation: undefined };
    if (id.startsWith("standoff.") && bursts !== undefined) {
      const known = withStandoff(file.coil, solution, bursts).solution;
      const near = { coil: file.coil, bursts };
      return {
        text: file.text,
        setting,
        explanation: explain({ file, solution: known, id, solve: solveWithStandoff(near), most: 8 }),
      };
    }
    const ofCoil = solution.figures.has(id);
    const known = ofCoil ? solution : solutionWithBurst(solution, studyBurst(file.coil, solution, setting), setting);
    const solveAgain = ofCoil ? solveKept : solveWithBurst(setting);
    return {
      text: file.text,
      setting,
      explanation: explain({ file, solution: known, id, solve: solveAgain }),
    };
  },
  async readCapture(question: ReadQuestion, tell: Tell): Promise<CaptureView | undefined> {
    return stoppable(async (signal) => (await benchWork()).read(question, { tell, signal }));
  },
  async tellOfCapture(view: CaptureView, says: Sayings, tell: Tell) {
    return stoppable(async (signal) => (await benchWork()).tellOf(view, says, { tell, signal }));
  },
  /** Undefined where the text is no coil that is driven. */
  async practiceRecord({ coil }: CoilFile, number: number): Promise<PracticeRecord | undefined> {
    const { practice } = await benchWork();
    try {
      return coil && practice(coil, number);
    } catch (error) {
      if (error instanceof RangeError) return undefined;
      throw error;
    }
  },
  async forgetCapture(id: number): Promise<void> {
    (await benchWork()).forget(id);
  },
  stopBench(): void {
    stopAll();
  },
  /** The coil fitted to records; a coil that cannot be solved says so. */
  async match(
    { file, ids, date }: { file: CoilFile; ids: readonly number[]; date: string },
    tell: Tell,
  ): Promise<MatchAnswer | undefined> {
    return stoppable(async (signal) => {
      const { matchOf } = await benchWork();
      const { solution, failed } = solved(file);
      if (solution === undefined) {
        const refused = failed ?? unreadable;
        return { text: file.text, ids, refused, overlays: [], sweeps: [] };
      }
      return matchOf({ file, ids, date, solution }, { tell, signal });
    });
  },
  async standoff(file: CoilFile): Promise<StandoffAnswer> {
    const { solution, bursts, failed } = solved(file);
    if (solution === undefined || bursts === undefined)
      return { text: file.text, failed: failed ?? unreadable, findings: [] };
    return (await import("../standoff/standoff-work.ts")).standoffAnswer(file, solution, bursts);
  },
  async layPapers(question: { file: CoilFile; fileName: string }, setting: PaperSetting): Promise<LaidPapers> {
    const { solution, bursts, failed } = solved(question.file);
    if (solution === undefined || bursts === undefined)
      return { text: question.file.text, sheets: [], failed: failed ?? unreadable };
    return (await paperWork()).layPapers({ ...question, solution, bursts }, setting);
  },
  async writePapers(
    question: { file: CoilFile; fileName: string },
    wanted: PaperSetting & { sheet?: string; formats: readonly SheetFormat[]; fonts: FontFiles },
  ): Promise<readonly SheetFile[]> {
    const { solution, bursts } = solved(question.file);
    if (solution === undefined || bursts === undefined) return [];
    return (await paperWork()).writePapers({ ...question, solution, bursts }, wanted);
  },
  /** A song inside the limits of the coil; a coil that cannot be solved says so. */
  async programme(file: CoilFile, source: SongSource, options: ProgrammeOptions): Promise<ProgrammeAnswer> {
    const { planOf } = await programmeWork();
    const { solution, failed } = solved(file);
    if (solution === undefined) return { text: file.text, songFindings: [], failed: failed ?? unreadable };
    return planOf({ file, solution }, source, options);
  },
  /** Why a figure of the planned song is what it is. */
  async explainProgramme(file: CoilFile, id: string, setting: BurstSetting): Promise<Explained> {
    const { explainFigure } = await programmeWork();
    const { solution } = solved(file);
    const explanation = solution && explainFigure({ file, solution }, id);
    return { text: file.text, setting, explanation };
  },
  async programmeSound(stretch: Stretch) {
    return (await programmeWork()).soundOf(stretch);
  },
  async programmeKey(pitch: number, setting: Pick<Stretch, "rate" | "volume">): Promise<KeySound | undefined> {
    return (await programmeWork()).keyOf(pitch, setting);
  },
  async programmeFiles(kind: OutputKind, setting: OutputSetting): Promise<Written> {
    return (await programmeWork()).writeOutput(kind, setting);
  },
  async bringUp(file: CoilFile): Promise<BringUpAnswer> {
    const { solution, failed } = solved(file);
    if (solution === undefined) return { text: file.text, refused: failed ?? unreadable };
    return (await benchWork()).bringUpOf(file, solution);
  },
};

type Tell = (progress: BenchProgress) => void;
interface ReadQuestion {
  readonly id: number;
  readonly name: string;
  readonly file: Blob;
  readonly says: Sayings;
}

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
