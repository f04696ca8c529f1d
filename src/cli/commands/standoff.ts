import { roomOf } from "../../findings/index.ts";
import { standoffPlan, standoffSection } from "../../views/standoff-plan.ts";
import { floorSvg } from "../../views/standoff-svg.ts";
import { briefText } from "../../views/text/brief.ts";
import { findingsText } from "../../views/text/findings.ts";
import { ledgerText } from "../../views/text/ledger.ts";
import { standoffText } from "../../views/text/standoff.ts";
import { standoffJson } from "../../views/text/standoff-json.ts";
import { standoff as standoffOf } from "../../workbench/standoff.ts";
import { showDayChecklist } from "../../workbench/standoff-checklist.ts";
import { burstsOf, judge, readInput } from "../coil-input.ts";
import { exitFor } from "../exit.ts";
import { type Io, UserError } from "../io.ts";

export interface StandoffOptions {
  readonly json?: boolean;
  readonly checklist?: boolean;
  /** Files to write the plan and the section to; - prints. */
  readonly plan?: string;
  readonly section?: string;
}

/** `coilwright standoff FILE`: who must stand where, and what can still hurt. */
export async function standoff(
  io: Io,
  name: string,
  { json = false, checklist = false, plan, section }: StandoffOptions,
): Promise<number> {
  if ([plan === "-", section === "-", json].filter(Boolean).length > 1)
    throw new UserError("only one of --plan -, --section - and --json can go to standard output");
  const input = await readInput(io, name);
  const judged = judge(input.text);
  const { file, solution, study, findings } = judged;
  const { width, colour } = io;
  const { coil } = file;
  const code = exitFor({ readable: coil !== undefined, findings });
  if (coil === undefined || solution === undefined || study === undefined) {
    io.out(
      json
        ? `${JSON.stringify(standoffJson({ findings }), undefined, 2)}\n`
        : findingsText({ findings, text: input.text, fileName: input.name, width, colour }),
    );
    return code;
  }
  const found = standoffOf({
    coil,
    solution,
    bursts: { ...burstsOf(judged), study },
  });
  const day = showDayChecklist(coil, found);
  for (const [to, draw] of [
    [plan, standoffPlan],
    [section, standoffSection],
  ] as const) {
    if (to === undefined) continue;
    const svg = floorSvg(draw(coil, found));
    if (to === "-") io.out(svg);
    else await io.write(to, { text: svg, beginning: "<svg" });
  }
  if (plan === "-" || section === "-") return code;
  if (json) {
    io.out(`${JSON.stringify(standoffJson({ findings, standoff: found, checklist: day }), undefined, 2)}\n`);
    return code;
  }
  const isHere = ({ rule }: { readonly rule: string }) => roomOf(rule) === "stand-off";
  io.out(
    [
      standoffText({
        coil,
        standoff: found,
        ...(checklist ? { checklist: day } : {}),
        fileName: input.name,
        width,
        colour,
      }),
      ledgerText({ figures: found.figures, colour }),
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
