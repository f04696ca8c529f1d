/** The staged first power-up as paper: room for each reading, and when to switch off. */
import { type FormatOptions, formatParts, formatQuantity, formatRange } from "../../units/format.ts";
import type { Metre } from "../../units/si.ts";
import { bringup } from "../../workbench/bringup.ts";
import type { BringUp, BringUpStage, BringUpStep, Expectation } from "../../workbench/bringup-contract.ts";
import { waitFor } from "../../workbench/keep-off.ts";
import { expectedDrawing } from "./expected-drawing.ts";
import { type Column, Flow, leading, textSize } from "./flow.ts";
import { framed } from "./frame.ts";
import { wrapped } from "./measure.ts";
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
    const drawn: Drawn = { at: new Map(), notes: new Set(), lengths: setting.lengths === "in" ? "in" : "m" };
    for (const [n, stage] of made.stages.entries()) layStage(flow, stage, n + 1, drawn);
    if (drawn.notes.size > 0) {
      flow.heading("What is simple about the drawings");
      flow.words("Lines of the model, no photograph: shape, order and scale count, the last digit does not.", {
        tone: "soft",
      });
      flow.list([...drawn.notes], { size: 2.6 * mm });
    }
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
    ...(time === undefined ? [] : [`The bleeders, if whole, bring it to 60 V in ${waitFor(time)}.`]),
    ...(tankVoltage === undefined ? [] : [`The tank capacitor may keep up to ${shown(tankVoltage, "V", 3)}.`]),
  ];
  if (facts.length > 0) flow.words(facts.join(" "), { face: "bold" });
  flow.gap(1 * mm);
  flow.list(steps, { mark: "box" });
}

function layStage(flow: Flow, stage: BringUpStage, number: number, drawn: Drawn): void {
  const { title, touches, connect, missing, steps } = stage;
  const [first, ...others] = steps.map((step, n) => prepared(flow, step, `${number}.${n + 1}`, drawn));
  const before = (touches ? [""] : []).concat(connect, missing.length > 0 ? [""] : []).length;
  flow.heading(`${number}  ${title}`, 8 * mm + before * 6 * mm + (first?.tall ?? 20 * mm));
  if (touches) flow.list(["Off, pulled, discharged, measured, shorted."], { mark: "box", face: "bold", tone: "stop" });
  flow.list(connect);
  if (missing.length > 0) flow.words(`Not in the file: ${missing.join("; ")}.`, { tone: "soft" });
  if (first) layStep(flow, first);
  for (const step of others) layStep(flow, step);
}

/** Beside a drawing a step has less room for words. */
const columnsOf = (wide: number) => [
  { head: "", share: 0.1 },
  { head: "", share: wide - 0.1 },
];
const drawingShare = 0.35;

/** What was drawn already, by the number of its step; and what is simple about the drawings. */
interface Drawn {
  readonly at: Map<string, string>;
  readonly notes: Set<string>;
  readonly lengths: "m" | "in";
}

interface PreparedStep {
  readonly title: string;
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly string[])[];
  readonly figure: ReturnType<typeof expectedDrawing> | undefined;
  /** Of the whole step, which stays on one page. */
  readonly tall: Metre;
}

const stepSize = 2.6 * mm;

function prepared(flow: Flow, step: BringUpStep, number: string, drawn: Drawn): PreparedStep {
  const { bus, does, probe, expects, picture, stop, differs, shows } = step;
  const same = shows && drawn.at.get(JSON.stringify(shows));
  const figure = shows && same === undefined ? expectedDrawing(shows, drawingShare * flow.area.width) : undefined;
  if (shows && figure) drawn.at.set(JSON.stringify(shows), number);
  if (shows?.note) drawn.notes.add(shows.note);
  const style = { digits: 3, trim: true, lengths: drawn.lengths } as const;
  const rows = [
    ["probe", probe],
    ...(expects
      ? [
          [
            "expect",
            `${formatQuantity(expects.value, expects.unit, style)}, between ${formatRange({ low: expects.low, high: expects.high }, expects.unit, style)}`,
          ],
        ]
      : []),
    ["picture", same === undefined ? picture : `${picture}; drawn at ${same}`],
    ["reading", `______________ ${expects ? unitOf(expects, style) : ""}      seen by ____________`],
    ["stop if", stop],
    ...(differs.length > 0 ? [["differs", differs.join("; ")]] : []),
  ];
  const title = `${number}  ${bus > 0 ? `Bus ${shown(bus, "V", 3)}. ` : ""}${does}`;
  const columns = columnsOf(figure ? 0.98 - drawingShare : 1);
  const lines = wrapped(title, { width: flow.area.width, size: textSize.text, face: "bold" }).length;
  const table = flow.tableHeight(columns, rows, { size: stepSize });
  const tall = lines * textSize.text * leading + Math.max(table, figure?.height ?? 0) + 1 * mm;
  return { title, columns, rows, figure, tall };
}

/** In which a reading is written down. */
const unitOf = ({ value, unit }: Expectation, style: FormatOptions): string =>
  unit === "1" ? "" : formatParts(value, unit, style).unit;

function layStep(flow: Flow, { title, columns, rows, figure, tall }: PreparedStep): void {
  flow.gap(1.4 * mm);
  flow.ensure(tall);
  flow.words(title, { face: "bold" });
  const y = flow.y;
  if (figure)
    flow.page.push(...figure.draw({ x: flow.area.x + (1 - drawingShare) * flow.area.width, y: y + 0.5 * mm }));
  flow.table(columns, rows, { headed: false, size: stepSize });
  flow.y = Math.max(flow.y, y + (figure?.height ?? 0) + 1 * mm);
}
