/** The day of the show: distances, what stays charged, what is asked of whom, and boxes to tick; printed once every hazard was acknowledged by name. */
import type { Finding } from "../../catalogue/finding.ts";
import { quantities } from "../../catalogue/quantities.ts";
import { keepOff, waitFor } from "../../workbench/keep-off.ts";
import { standoff } from "../../workbench/standoff.ts";
import { showDayChecklist } from "../../workbench/standoff-checklist.ts";
import type { ChecklistItem, Standoff } from "../../workbench/standoff-contract.ts";
import { blockingHazards } from "../../workbench/standoff-hazards.ts";
import { standoffPlan, standoffSection } from "../standoff-plan.ts";
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import { formatOf } from "./paper.ts";
import { floorItems, floorScale, scaleBar } from "./room-plan.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { shown } from "./words.ts";

const mm = 1e-3;

const standoffOf = (subject: SheetSubject, words: { readonly lengths?: "m" | "in" } = {}): Standoff =>
  standoff({ ...words, coil: subject.coil, solution: subject.solution, bursts: subject });

/** What stands between this coil and its show sheet. */
export const showDayBlocks = (subject: SheetSubject): readonly Finding[] =>
  blockingHazards(subject.coil, standoffOf(subject));

const who: Readonly<Record<ChecklistItem["by"], string>> = { operator: "operator", second: "second", both: "both" };

function lay(subject: SheetSubject, setting: SheetSetting) {
  const { coil } = subject;
  const words = { lengths: floorLengths(setting) } as const;
  const found = standoffOf(subject, words);
  const format = formatOf(setting.paper);
  const flow = new Flow(format.body);
  flow.title(
    "Show-day sheet",
    "For two people: one does, the other reads, watches and stops. Read aloud, tick when seen.",
  );
  flow.words("operator ______________________     second ______________________     place ______________________", {
    tone: "soft",
  });
  flow.gap(2 * mm);
  flow.caution([
    "High voltage, mains and stored energy can kill. Nothing on this sheet is a permission; local codes and licensed practice come first.",
    ...found.touch.first,
  ]);
  distances(flow, found, setting);
  stores(flow, found);
  for (const { title, items } of showDayChecklist(coil, found, words)) {
    flow.heading(title, 20 * mm);
    for (const { by, says } of items) flow.list([`${says}  [${who[by]}]`], { mark: "box" });
  }
  flow.heading("What it can do to those who are there");
  for (const { title, says } of found.cautions) {
    flow.ensure(9 * mm);
    flow.words(title, { face: "bold" });
    flow.list(says, { size: 2.6 * mm });
  }
  flow.heading("Hazards acknowledged in the file, by name");
  flow.list(found.hazards.filter(({ acknowledged }) => acknowledged).map(({ name, says }) => `${name}: ${says}`));
  flow.gap(1.5 * mm);
  flow.caution([found.closing]);
  const scale = room(flow, subject, found, setting);
  return framed(flow.pages, { subject, setting, format, title: "Show-day sheet", scale });
}

/** In the order of what is laid out on the floor. */
const floor = ["standoff.audience", "standoff.reach", "standoff.strike"];

function distances(flow: Flow, { figures, line, basis }: Standoff, setting: SheetSetting): void {
  flow.heading("Distances");
  const rows = floor.flatMap((id): string[][] => {
    const figure = figures.get(id);
    const quantity = quantities.get(id);
    if (!figure || !quantity) return [];
    const range =
      figure.low === undefined || figure.high === undefined
        ? ""
        : rangeText({ low: figure.low, high: figure.high }, setting);
    return [[quantity.name, keepOff(figure.high ?? figure.value, floorLengths(setting)), range, quantity.definition]];
  });
  flow.table(
    [
      { head: "", share: 0.2 },
      { head: "lay out", share: 0.12, face: "bold" },
      { head: "range", share: 0.18 },
      { head: "what it is", share: 0.5 },
    ],
    rows,
    { size: 2.6 * mm },
  );
  if (line.decides)
    flow.words(
      `The line is decided by: ${line.decides.says}. Upper ends: ${basis}. Distances of this table are rounded up; they count where a line below says less.`,
      { tone: "soft" },
    );
}

/** In one unit from end to end, the upper end rounded up: the distance to lay out is never less. */
function rangeText({ low, high }: { low: number; high: number }, { lengths }: SheetSetting): string {
  const [unit, name] = lengths === "in" ? [0.3048, "ft"] : [1, "m"];
  const digits = high / unit < 10 ? 2 : 1;
  const steps = 10 ** digits;
  const ends = [Math.floor((low / unit) * steps + 1e-6), Math.ceil((high / unit) * steps - 1e-6)];
  return `${ends.map((end) => (end / steps).toFixed(digits)).join(" … ")}\u202f${name}`;
}

/** In two digits, rounded up: what a store may hold is never more. */
function atMost(value: number, unit: string): string {
  if (!(value > 0)) return shown(value, unit, 2);
  const step = 10 ** (Math.floor(Math.log10(value)) - 1);
  return shown(Math.ceil(value / step - 1e-9) * step, unit, 2);
}

const floorLengths = ({ lengths }: SheetSetting) => (lengths === "in" ? "in" : "m");

/** Plan and section, one below the other at one scale. @returns that scale, as the title block says it */
function room(flow: Flow, { coil }: SheetSubject, found: Standoff, setting: SheetSetting): string {
  const words = { lengths: floorLengths(setting) } as const;
  const [plan, section] = [standoffPlan(coil, found, words), standoffSection(coil, found, words)];
  const sizes = [plan, section].map(({ box }) => ({ across: box.right - box.left, up: box.top - box.bottom }));
  const { x, width, height } = flow.area;
  const beside = 36 * mm;
  const ratio = floorScale(
    {
      across: Math.max(...sizes.map(({ across }) => across)),
      up: sizes.reduce((sum, { up }) => sum + up, 0),
    },
    { width, height: height - beside },
    setting.lengths,
  );
  const tall = sizes.reduce((sum, { up }) => sum + up / ratio, 0);
  flow.heading("The room, to lay out the floor by", tall + beside - 4 * mm);
  flow.words(
    `Plan and section at 1 : ${ratio}, the audience to the right. Rings of the plan, the line and the barrier are measured from the coil's axis; strike and reach in the section from top and winding.`,
  );
  flow.words("An estimate from this file, no permission: measure on the floor, not on the paper.", { face: "bold" });
  for (const [n, drawn] of [plan, section].entries()) {
    flow.gap(1.5 * mm);
    const up = (sizes[n]?.up ?? 0) / ratio;
    flow.block(up, (y) => floorItems(drawn, { area: { x, y, width, height: up }, ratio }));
  }
  flow.gap(2 * mm);
  flow.block(6 * mm, (y) => scaleBar({ x: x + 2 * mm, y }, { ratio, lengths: setting.lengths }));
  return `1 : ${ratio}`;
}

function stores(flow: Flow, { stored }: Standoff): void {
  if (stored.stores.length === 0) return;
  flow.heading("What stays charged");
  flow.table(
    [
      { head: "store", share: 0.3 },
      { head: "at most", share: 0.16, face: "bold" },
      { head: "voltage", share: 0.16 },
      { head: "to 60 V, if the bleeder is whole", share: 0.38 },
    ],
    stored.stores.map(({ says, energy, voltage, waiting }) => [
      says,
      atMost(energy, "J"),
      atMost(voltage, "V"),
      waiting === "none" ? "nothing discharges it: short it by hand" : waitFor(waiting),
    ]),
    { size: 2.6 * mm },
  );
}

export const showDaySheet: Sheet = {
  id: "show-day",
  title: "Show-day sheet",
  says: "distances, what stays charged, and the checklist of two people",
  needs: [],
  without: (subject) => {
    const blocks = showDayBlocks(subject);
    return blocks.length === 0
      ? undefined
      : `it is not printed before every hazard is acknowledged in the file: ${blocks.map(({ what }) => what.split(":")[0]).join("; ")}`;
  },
  lay,
};
