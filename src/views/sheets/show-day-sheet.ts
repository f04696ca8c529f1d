/** The day of the show: distances, what stays charged, what is asked of whom, and boxes to tick; printed once every hazard was acknowledged by name. */
import type { Finding } from "../../catalogue/finding.ts";
import { quantities } from "../../catalogue/quantities.ts";
import { formatQuantity, formatRange } from "../../units/format.ts";
import { standoff } from "../../workbench/standoff.ts";
import { showDayChecklist } from "../../workbench/standoff-checklist.ts";
import type { ChecklistItem, Standoff } from "../../workbench/standoff-contract.ts";
import { blockingHazards } from "../../workbench/standoff-hazards.ts";
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import { formatOf } from "./paper.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { shown } from "./words.ts";

const mm = 1e-3;

const standoffOf = ({ coil, solution, study, atLimits, unlit }: SheetSubject): Standoff =>
  standoff({
    coil,
    solution,
    bursts: { study, ...(atLimits ? { atLimits } : {}), ...(unlit ? { unlit } : {}) },
  });

/** What stands between this coil and its show sheet. */
export const showDayBlocks = (subject: SheetSubject): readonly Finding[] =>
  blockingHazards(subject.coil, standoffOf(subject));

/** Distances that people are kept by are rounded up, to the decimetre or to the half foot. */
function distance(value: number, { lengths }: SheetSetting): string {
  if (lengths === "in") return `${Math.ceil((value / 0.3048) * 2 - 1e-9) / 2}\u00a0ft`;
  return `${(Math.ceil(value * 10 - 1e-9) / 10).toFixed(1)}\u00a0m`;
}

const who: Readonly<Record<ChecklistItem["by"], string>> = { operator: "operator", second: "second", both: "both" };

function lay(subject: SheetSubject, setting: SheetSetting) {
  const { coil } = subject;
  const found = standoffOf(subject);
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
  for (const { title, items } of showDayChecklist(coil, found)) {
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
  return framed(flow.pages, { subject, setting, format, title: "Show-day sheet", scale: "–" });
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
        : formatRange({ low: figure.low, high: figure.high }, "m", {
            digits: 2,
            lengths: setting.lengths === "in" ? "in" : "m",
          });
    return [[quantity.name, distance(figure.high ?? figure.value, setting), range, quantity.definition]];
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
      shown(energy, "J", 2),
      shown(voltage, "V", 2),
      waiting === "none" ? "nothing discharges it: short it by hand" : formatQuantity(waiting, "s", { digits: 2 }),
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
