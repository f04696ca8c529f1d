/** From a file name on the command line to a coil, its solution, its burst and its findings. */
import type { Finding } from "../catalogue/finding.ts";
import { assess, type JudgedBursts, judgedBursts } from "../findings/index.ts";
import { readCoil } from "../readers/coil-file.ts";
import { kindOf } from "../readers/song.ts";
import { shellWord } from "../views/text/findings.ts";
import type { BurstSetting } from "../workbench/burst-contract.ts";
import type { CoilFile, Solution } from "../workbench/contract.ts";
import { solve } from "../workbench/solve.ts";
import { type Io, UserError } from "./io.ts";

/** The name that stands for standard input. */
export const standardInput = "-";

/** To move every number that a figure stands on: more than any coil file has. */
export const everyNumber = 1000;

export interface CoilText {
  /** As the person called it, for messages. */
  readonly name: string;
  readonly text: string;
  /** Undefined for standard input, which cannot be saved. */
  readonly version?: string;
}

/** @throws UserError there is no such file, or it cannot be read */
export async function readInput(io: Io, name: string): Promise<CoilText> {
  if (name === standardInput) return { name: "standard input", text: await io.readStandardInput() };
  const found = await io.read(name).catch(async (error: unknown) => {
    throw (await isMidi(io, name)) ? aSong(name) : error;
  });
  if (found === undefined) {
    throw new UserError(`there is no file ${name}; make one with: coilwright new ${name}`);
  }
  if (kindOf(new TextEncoder().encode(found.text)) === "tune") throw aSong(name);
  return { name, ...found };
}

const aSong = (name: string) =>
  new UserError(
    `${name} is a song, and a coil file is wanted here; to play it: coilwright play ${shellWord(name)} COIL`,
  );

async function isMidi(io: Io, name: string): Promise<boolean> {
  const found = await io.pieces(name).catch(() => undefined);
  if (found === undefined) return false;
  for await (const piece of found.pieces) return kindOf(piece) === "midi";
  return false;
}

export interface Judged extends Partial<JudgedBursts> {
  readonly file: CoilFile;
  readonly solution?: Solution;
  readonly findings: readonly Finding[];
}

/** The bursts that findings stand on. */
export const burstsOf = ({ study, atLimits, unlit, beyond }: Judged): Partial<JudgedBursts> => ({
  ...(study ? { study } : {}),
  ...(atLimits ? { atLimits } : {}),
  ...(unlit ? { unlit } : {}),
  ...(beyond ? { beyond } : {}),
});

/**
 * Reads, solves, studies and judges a text. A coil that cannot be solved becomes a finding.
 *
 * @param setting    what is moved against the file; it stays moved in what is said about the interrupter's limits
 * @param waveforms  also sample them
 */
export function judge(
  text: string,
  { setting = {}, waveforms = false }: { setting?: BurstSetting; waveforms?: boolean } = {},
): Judged {
  const file = readCoil(text);
  const { coil } = file;
  if (coil === undefined) return { file, findings: assess({ file }) };
  try {
    const solution = solve(coil);
    const bursts = judgedBursts(coil, solution, setting, { waveforms });
    return { file, solution, ...bursts, findings: assess({ file, solution, ...bursts }) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return { file, findings: [notSolved(error), ...assess({ file })] };
  }
}

const notSolved = (error: RangeError): Finding => ({
  rule: "not-solved",
  severity: "stop",
  path: "",
  what: `this coil cannot be solved (${error.message})`,
  expected: "parts that neither touch nor cross each other",
  evidence: [],
  remedies: [{ says: "look at the drawing for parts that cross, and move them apart", edits: [] }],
});
