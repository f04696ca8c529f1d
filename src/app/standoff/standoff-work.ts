/** Stand-off off the page's thread: figures, tables as words, drawings as SVG. */

import type { Finding } from "../../catalogue/finding.ts";
import { assess } from "../../findings/assess.ts";
import type { JudgedBursts } from "../../findings/judged-bursts.ts";
import { roomOf } from "../../findings/rule-list.ts";
import { standoffPlan, standoffSection } from "../../views/standoff-plan.ts";
import { floorSvg } from "../../views/standoff-svg.ts";
import type { CoilFile, Solution } from "../../workbench/contract.ts";
import { standoff } from "../../workbench/standoff.ts";
import { showDayChecklist } from "../../workbench/standoff-checklist.ts";
import type { ChecklistPart, Standoff } from "../../workbench/standoff-contract.ts";

export interface StandoffAnswer {
  readonly text: string;
  readonly failed?: string;
  readonly standoff?: Standoff;
  readonly checklist?: readonly ChecklistPart[];
  readonly plan?: string;
  readonly section?: string;
  readonly findings: readonly Finding[];
}

export function standoffAnswer(file: CoilFile, solution: Solution, bursts: JudgedBursts): StandoffAnswer {
  const { text, coil } = file;
  if (coil === undefined) return { text, findings: [] };
  const found = standoff({ coil, solution, bursts });
  return {
    text,
    standoff: found,
    checklist: showDayChecklist(coil, found),
    plan: floorSvg(standoffPlan(coil, found)),
    section: floorSvg(standoffSection(coil, found)),
    findings: assess({ file, solution, ...bursts }).filter(({ rule }) => roomOf(rule) === "stand-off"),
  };
}
