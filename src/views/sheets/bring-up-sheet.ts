/** The staged first power-up as paper: room for each reading, and when to switch off. */
import { formatRange } from "../../units/format.ts";
import { bringup } from "../../workbench/bringup.ts";
import type { BringUp, BringUpStage, BringUpStep } from "../../workbench/bringup-contract.ts";
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import { formatOf } from "./paper.ts";
import type { Sheet, SheetSubject } from "./sheet.ts";
import { shown } from "./words.ts";

const mm = 1e-3;

/** By burst: another paper or unit asks for the same stages, which take bursts of their own. */
const known = new WeakMap<SheetSubject["study"], BringUp>();

function stagesOf({ file, solution, study }: SheetSubject): BringUp {
  const made = known.get(study) ?? bringup({ file, solution, study });
  known.set(study, made);
  return made;
}

export const bringUpSheet: Sheet = {
  id: "bring-up",
  title: "Bring-up",
  says: "the first power-up in stages, with what each probe must show",
  needs: [],
  lay: (subject, setting) => {
    const made = stagesOf(subject);
    const format = formatOf(setting.paper);
    const flow = new Flow(format.body);
    flow.title(
      "Bring-up sheet",
      "Predictions of this file with the range that a reading should lie in. Write every reading down before the next switch is thrown.",
    );
    flow.words(
      "first person ______________________     at the mains switch ______________________     begun at __________",
      { tone: "soft" },
    );
    flow.gap(2 * mm);
    flow.caution(made.cautions);
    discharge(flow, made.discharge);
    flow.heading("Where the earth goes");
    flow.list(made.earth);
    for (const [n, stage] of made.stages.entries()) layStage(flow, stage, n + 1);
    return framed(flow.pages, { subject, setting, format, title: "Bring-up", scale: "–" });
  },
};

function discharge(
  flow: Flow,
  { time, storedEnergy, tankVoltage, steps }: ReturnType<typeof bringup>["discharge"],
): void {
  flow.heading("Before every touch");
  const facts = [
    ...(storedEnergy === undefined ? [] : [`The bus holds up to ${shown(storedEnergy, "J", 3)}.`]),
    ...(time === undefined ? [] : [`The bleeders, if whole, bring it to 60 V in ${shown(time, "s", 3)}.`]),
    ...(tankVoltage === undefined ? [] : [`The tank capacitor may keep up to ${shown(tankVoltage, "V", 3)}.`]),
  ];
  if (facts.length > 0) flow.words(facts.join(" "), { face: "bold" });
  flow.gap(1 * mm);
  flow.list(steps, { mark: "box" });
}

function layStage(flow: Flow, { title, touches, connect, missing, steps }: BringUpStage, number: number): void {
  flow.heading(`${number}  ${title}`, 34 * mm);
  if (touches) flow.list(["Off, pulled, discharged, measured, shorted."], { mark: "box", face: "bold", tone: "stop" });
  flow.list(connect);
  if (missing.length > 0) flow.words(`Not in the file: ${missing.join("; ")}.`, { tone: "soft" });
  for (const [n, step] of steps.entries()) layStep(flow, step, `${number}.${n + 1}`);
}

const columns = [
  { head: "", share: 0.12 },
  { head: "", share: 0.88 },
] as const;

function layStep(flow: Flow, { bus, does, probe, expects, picture, stop, differs }: BringUpStep, number: string): void {
  flow.gap(1.4 * mm);
  flow.ensure(30 * mm);
  flow.words(`${number}  ${bus > 0 ? `Bus ${shown(bus, "V", 3)}. ` : ""}${does}`, { face: "bold" });
  flow.table(
    columns,
    [
      ["probe", probe],
      ...(expects
        ? [
            [
              "expect",
              `${shown(expects.value, expects.unit, 3)}, between ${formatRange({ low: expects.low, high: expects.high }, expects.unit, { digits: 3 })}`,
            ],
          ]
        : []),
      ["picture", picture],
      ["reading", `______________ ${expects && expects.unit !== "1" ? expects.unit : ""}      seen by ____________`],
      ["stop if", stop],
      ...(differs.length > 0 ? [["differs", differs.join("; ")]] : []),
    ],
    { headed: false, size: 2.6 * mm },
  );
}
