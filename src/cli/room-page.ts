/** The page of a room that stands on a burst: sentences, ledger, findings; or all of it as JSON. */
import type { Finding } from "../catalogue/finding.ts";
import { type Group, quantities } from "../catalogue/quantities.ts";
import type { Coil } from "../description/coil.ts";
import { assess, type Room, roomOf } from "../findings/index.ts";
import { briefText } from "../views/text/brief.ts";
import { findingsText } from "../views/text/findings.ts";
import type { driverJson } from "../views/text/json.ts";
import { ledgerText } from "../views/text/ledger.ts";
import type { BurstSetting, BurstStudy } from "../workbench/burst-contract.ts";
import { type Doubts, intervals } from "../workbench/doubts.ts";
import { solutionWithBurst, solveWithBurst } from "../workbench/solve-with-burst.ts";
import { burstsOf, everyNumber, type Judged, judge, readInput } from "./coil-input.ts";
import { exitFor } from "./exit.ts";
import type { Io } from "./io.ts";

export interface RoomPage {
  /** Whose findings stand on the page; the others are counted. */
  readonly rooms: readonly Room[];
  /** Blocks of the ledger. */
  readonly groups: readonly Group[];
  /** Figures that the head shows already. */
  readonly leaveOut?: RegExp;
  readonly json: typeof driverJson;
  readonly head: (parts: {
    coil: Coil;
    study: BurstStudy;
    atLimits?: BurstStudy;
    unlit?: BurstStudy;
    fileName: string;
    width: number;
    colour: boolean;
  }) => readonly string[];
}

/** Waveforms on their way out; `aside` where they go to a file and the page is printed as well. */
export interface WaveformOutput {
  readonly aside: boolean;
  send(made: { coil: Coil; study: BurstStudy }): Promise<void>;
}

export async function roomPage(
  io: Io,
  name: string,
  {
    page,
    setting,
    json = false,
    sure = false,
    out,
  }: { page: RoomPage; setting: BurstSetting; json?: boolean; sure?: boolean; out?: WaveformOutput },
): Promise<number> {
  const input = await readInput(io, name);
  const judged = judge(input.text, { setting, waveforms: out !== undefined });
  const { file, solution, study } = judged;
  const { width, colour } = io;
  if (file.coil !== undefined && study !== undefined && out !== undefined) {
    await out.send({ coil: file.coil, study });
    if (!out.aside) return exitFor({ readable: true, findings: judged.findings });
  }
  const doubts = sure ? doubtsOf(io, judged, setting) : undefined;
  const findings = doubts && solution ? assess({ file, solution, ...burstsOf(judged), doubts }) : judged.findings;
  const code = exitFor({ readable: file.coil !== undefined, findings });
  if (json) {
    const made = page.json({ findings, ...(study ? { study } : {}), ...(doubts ? { doubts } : {}) });
    io.out(`${JSON.stringify(made, undefined, 2)}\n`);
    return code;
  }
  if (file.coil === undefined || study === undefined) {
    io.out(findingsText({ findings, text: input.text, fileName: input.name, width, colour }));
    return code;
  }
  const shown = [...study.figures].filter(([id]) => isShown(id, page));
  const isHere = ({ rule }: Finding) => page.rooms.includes(roomOf(rule));
  io.out(
    [
      ...page.head({ coil: file.coil, ...burstsOf(judged), study, fileName: input.name, width, colour }),
      ...(shown.length === 0 ? [] : [ledgerText({ figures: new Map(shown), colour, ...(doubts ? { doubts } : {}) })]),
      briefText({
        findings: findings.filter(isHere),
        elsewhere: findings.filter((finding) => !isHere(finding)),
        fileName: input.name,
        width,
        colour,
      }),
    ].join("\n"),
  );
  return code;
}

const isShown = (id: string, { groups, leaveOut }: RoomPage): boolean => {
  const group = quantities.get(id)?.group;
  return group !== undefined && groups.includes(group) && !leaveOut?.test(id);
};

function doubtsOf(io: Io, { file, solution, study }: Judged, setting: BurstSetting): Doubts | undefined {
  if (solution === undefined || study === undefined) return undefined;
  const doubts = intervals({
    file,
    solution: solutionWithBurst(solution, study, setting),
    solve: solveWithBurst(setting),
    figures: [...study.figures.keys()],
    most: everyNumber,
    onProgress: (done, of) => io.progress(`solving again, ${done} of ${of} numbers moved`),
  });
  io.progress("");
  return doubts;
}
