/** What the bench needs to wind the secondary, and what the meter should say afterwards. */
import { copperResistivity } from "../../fields/wire-loss.ts";
import type { Kelvin, Metre } from "../../units/si.ts";
import { Flow } from "./flow.ts";
import { framed } from "./frame.ts";
import type { Page } from "./page.ts";
import { formatOf } from "./paper.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { numberOf } from "./sheet.ts";
import { durationText, lengthText, markText, massText, runText, shown } from "./words.ts";

/** Of copper at 20 °C [kg/m³]. From memory. */
const copperDensity = 8960;
/** Spare wire for leads and a slip. Common practice, no source. */
const spare = 0.05;
/** Dry thickness of one brushed coat. Common practice, no source. */
const coat: Metre = 0.1e-3;
const zeroCelsius: Kelvin = 273.15;
const paces = [30, 60, 120];
/** Stops to look, to rest and to count: a third of the time at the winder. Common practice, no source. */
const stops = 1.33;

/** Turns from mark to mark: few enough to count, and at most about two dozen marks. */
export const markEvery = (turns: number): number =>
  [10, 20, 25, 50, 100, 200, 250, 500].find((n) => turns / n <= 24) ?? 1000;

function lay(subject: SheetSubject, setting: SheetSetting): readonly Page[] {
  const format = formatOf(setting.paper);
  const flow = new Flow(format.body);
  flow.title("Winding sheet", "One layer of round wire on a tube, turn beside turn at an even pitch.");
  wireAndFormer(flow, subject, setting);
  marks(flow, subject, setting);
  expected(flow, subject, setting);
  coating(flow, subject, setting);
  const titles = { subject, setting, format, title: "Winding sheet", scale: "–" };
  return framed(flow.pages, titles);
}

const facts = [
  { head: "", share: 0.34 },
  { head: "", share: 0.22, face: "bold" },
  { head: "", share: 0.44 },
] as const;

function wireAndFormer(flow: Flow, subject: SheetSubject, setting: SheetSetting): void {
  const { former, wire, turns, length, baseHeight } = subject.coil.secondary;
  const pitch = length / turns;
  const wireLength = numberOf(subject, "secondary.wireLength") ?? 0;
  const mass = (Math.PI / 4) * wire.bare ** 2 * wireLength * copperDensity;
  const size = (value: Metre) => lengthText(value, setting);
  flow.heading("The winding");
  flow.table(
    facts,
    [
      ["turns", String(turns), "counted, not reckoned from the length"],
      ["length of the winding", size(length), "first turn's centre to last turn's centre, and one pitch"],
      [
        "pitch",
        size(pitch),
        `the wire is ${size(wire.overall)} over its insulation: ${shown((pitch - wire.overall) / pitch, "%", 2)} of the pitch stays open`,
      ],
      ["former, outer diameter", size(former.outerDiameter), "dry, clean, no screws and no pencil lead under the wire"],
      ["wire, bare", size(wire.bare), `over the insulation ${size(wire.overall)}`],
      ["over the finished winding", size(former.outerDiameter + 2 * wire.overall), "diameter, before the coating"],
      ["lower end above the ground plane", size(baseHeight), "the lowest turn stands here in the finished coil"],
    ],
    { headed: false },
  );
  flow.heading("Wire and time");
  flow.table(
    facts,
    [
      ["length in the winding", runText(wireLength, setting), "along the helix"],
      ["length with 5 % to spare", runText(wireLength * (1 + spare), setting), "for leads and one slip"],
      [
        "mass of copper",
        massText(mass, setting),
        `${massText(mass * (1 + spare), setting)} with the spare; enamel and reel come on top`,
      ],
      [
        `time at ${paces.join(", ")} turns a minute`,
        paces.map((pace) => durationText((turns / pace) * 60)).join(", "),
        `about ${paces.map((pace) => durationText((turns / pace) * 60 * stops)).join(", ")} with stops to look and count`,
      ],
    ],
    { headed: false },
  );
}

function marks(flow: Flow, { coil: { secondary } }: SheetSubject, setting: SheetSetting): void {
  const { turns, length } = secondary;
  const pitch = length / turns;
  const every = markEvery(turns);
  const all = [...Array.from({ length: Math.floor(turns / every - 1e-9) }, (_, n) => (n + 1) * every), turns];
  flow.heading("Marks along the former");
  flow.words(
    `Mark the former every ${every} turns, from the lower end of the winding. While winding, each mark must be reached at its count within one turn; if not, the wire climbs or gaps.`,
    { tone: "soft" },
  );
  flow.gap(1e-3);
  // in columns of their own, read downwards
  const columns = 4;
  const rows = Math.ceil(all.length / columns);
  const unit = setting.lengths === "mm" ? "mm" : "in";
  const cell = (n: number | undefined) =>
    n === undefined ? ["", "", ""] : [String(n), markText(n * pitch, setting), ""];
  flow.table(
    Array.from({ length: columns }, () => [
      { head: "turn", share: 0.07, align: "end" as const },
      { head: unit, share: 0.1, align: "end" as const, face: "bold" as const },
      { head: "seen", share: 0.08 },
    ]).flat(),
    Array.from({ length: rows }, (_, row) =>
      Array.from({ length: columns }, (_unused, column) => cell(all[column * rows + row])).flat(),
    ),
  );
}

function expected(flow: Flow, subject: SheetSubject, setting: SheetSetting): void {
  const { coil, solution } = subject;
  const air = coil.site.air.temperature;
  const direct = numberOf(subject, "secondary.resistanceDc") ?? 0;
  const at = (temperature: Kelvin) => (direct * copperResistivity(temperature)) / copperResistivity(air);
  const temperatures = [10, 15, 20, 25, 30].map((celsius) => celsius + zeroCelsius);
  flow.heading("What the meter should say");
  flow.table(
    [
      { head: "temperature of the wire", share: 0.3 },
      ...temperatures.map((temperature) => ({ head: shown(temperature, "K"), share: 0.14 })),
    ],
    [["resistance, end to end", ...temperatures.map((temperature) => shown(at(temperature), "Ω", 4))]],
  );
  const inductance = solution.figures.get("secondary.inductance");
  const resonance = solution.figures.get("secondary.f1");
  flow.table(
    [
      { head: "", share: 0.34 },
      { head: "expected", share: 0.22, face: "bold" },
      { head: "with", share: 0.24 },
      { head: "measured", share: 0.2 },
    ],
    [
      ["resistance, end to end", shown(direct, "Ω", 4), `four-wire ohmmeter, ${shown(air, "K")}`, ""],
      ...(inductance ? [["inductance", shown(inductance.value, "H", 4), "bridge at 1 kHz or below", ""]] : []),
      ...(resonance
        ? [["first resonance in place", shown(resonance.value, "Hz", 4), "top load on, primary open", ""]]
        : []),
    ],
  );
  flow.words(
    `A resistance lower than that by more than 2 % means turns that touch, a thicker wire or a miscount; higher, a thinner wire or a bad joint. Bare diameters are made to a tolerance: ${lengthText(0.003e-3, setting, 2)} on a hair-thin wire is some per cent of its resistance.`,
    { tone: "soft" },
  );
}

function coating(flow: Flow, { coil: { secondary } }: SheetSubject, setting: SheetSetting): void {
  const layer = secondary.coating;
  flow.heading("Coating");
  if (!layer) {
    flow.words("The file has no coating. Bare enamel tracks where dust and damp collect.");
    return;
  }
  const coats = Math.max(1, Math.ceil(layer.thickness / coat - 1e-9));
  flow.words(
    `${layer.material}, ${lengthText(layer.thickness, setting, 3)} when dry: ${coats === 1 ? "one coat" : `${coats} coats`} of about ${lengthText(coat, setting, 2)} (common practice, no source; weigh or gauge a scrap). Turn the winding level until it has set. Thin coats, dried through: a skin over solvent traps bubbles, and bubbles are where discharge begins.`,
  );
  flow.gap(0.5e-3);
  const columns = 3;
  const cells = Array.from({ length: Math.min(coats, 12) }, (_, n) => `coat ${n + 1}   on ________   dry ________`);
  flow.table(
    Array.from({ length: columns }, () => ({ head: "", share: 1 / columns })),
    Array.from({ length: Math.ceil(cells.length / columns) }, (_, row) =>
      cells.slice(row * columns, (row + 1) * columns),
    ),
    { headed: false, size: 2.5e-3 },
  );
}

export const windingSheet: Sheet = {
  id: "winding-sheet",
  title: "Winding sheet",
  says: "turns, pitch, wire, marks, time, and what the meter should say",
  needs: ["secondary.wireLength", "secondary.resistanceDc"],
  lay,
  table: ({ coil: { secondary } }, setting) => {
    const every = markEvery(secondary.turns);
    const pitch = secondary.length / secondary.turns;
    const count = Math.floor(secondary.turns / every - 1e-9);
    return [
      ["turn", setting.lengths === "mm" ? "from the lower end / mm" : "from the lower end / in"],
      ...[...Array.from({ length: count }, (_, n) => (n + 1) * every), secondary.turns].map((n) => [
        String(n),
        markText(n * pitch, setting),
      ]),
    ];
  },
};
