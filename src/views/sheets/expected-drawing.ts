/** What an instrument should show at a test point, small enough to stand beside its step: each unit in a band of its own, with its scale. */
import type { Metre } from "../../units/si.ts";
import type { ExpectedPicture, ExpectedTrace } from "../../workbench/bringup-contract.ts";
import { axisNumbers } from "../axis-numbers.ts";
import { ticks } from "../plots-ticks.ts";
import { fitted, widthOf, wrapped } from "./measure.ts";
import { type At, type Box, type Item, polyline, rectangle, type Tone, weight } from "./page.ts";

const mm = 1e-3;
const size = 2.1 * mm;
const row = 2.9 * mm;
/** Of the numbers below the last band, clear of that band's own. */
const footRow = 3.7 * mm;
const scaleWidth = 9 * mm;
const bandHeight = 12.5 * mm;
/** Of what is only on or off. */
const stepHeight = 4 * mm;

interface Band {
  readonly traces: readonly ExpectedTrace[];
  readonly low: number;
  readonly high: number;
  readonly height: Metre;
  readonly ticks: readonly number[];
  readonly numbers: readonly string[];
  readonly unit: string;
}

/** Lines of a trace in its band: the second of a band is dashed. */
const pens: readonly { readonly tone: Tone; readonly dash?: readonly Metre[] }[] = [
  { tone: "copper" },
  { tone: "guide", dash: [1 * mm, 0.6 * mm] },
];

/** @returns how tall it is, and its items with the upper left corner at a place */
export function expectedDrawing(
  picture: ExpectedPicture,
  width: Metre,
): { readonly height: Metre; readonly draw: (at: At) => readonly Item[] } {
  const bands = bandsOf(picture.traces);
  const words = wordsOf(picture, width);
  const field = bands.reduce((sum, { traces, height }) => sum + traces.length * row + height, 0);
  return {
    height: field + footRow + words.length * row + 1 * mm,
    draw: ({ x, y }) => {
      const left = x + scaleWidth;
      const wide = width - scaleWidth - 1 * mm;
      const [first, last] = [picture.at[0] ?? 0, picture.at.at(-1) ?? 1];
      const across = (at: number): Metre => left + ((at - first) / (last - first || 1)) * wide;
      const items: Item[] = [];
      let top = y;
      for (const band of bands) {
        const box = { x: left, y: top + band.traces.length * row, width: wide, height: band.height };
        items.push(...legend(band, { x: left, y: top }, wide), ...scaleOf(band, box));
        for (const [n, { values }] of band.traces.entries())
          items.push(line(picture.at, values, { band, box, across }, n));
        items.push(...marks(picture, { box, across }));
        top = box.y + band.height;
      }
      items.push(...abscissa(picture, { x: left, y: top }, { across, first, last }));
      for (const [n, text] of words.entries())
        items.push(word(text, { x, y: top + footRow + (n + 1) * row - 0.6 * mm }, { tone: "soft" }));
      return items;
    },
  };
}

const word = (
  text: string,
  at: At,
  { tone = "ink" as Tone, anchor = "start" as "start" | "middle" | "end" } = {},
): Item => ({ kind: "text", text, ...at, size, face: "regular", tone, anchor });

function bandsOf(traces: readonly ExpectedTrace[]): readonly Band[] {
  const groups = new Map<string, ExpectedTrace[]>();
  for (const trace of traces) {
    // what is on or off stands alone, whatever else has no unit
    const key = trace.id === "interrupter" ? trace.id : trace.unit;
    groups.set(key, [...(groups.get(key) ?? []), trace]);
  }
  return [...groups.values()].map(bandOf);
}

function bandOf(traces: readonly ExpectedTrace[]): Band {
  const values = traces.flatMap((trace) => trace.values);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const unit = traces[0]?.unit ?? "1";
  const [low, high] = limits(least, most);
  if (traces[0]?.id === "interrupter")
    return { traces, low, high, height: stepHeight, ticks: [], numbers: [], unit: "" };
  const at = scaleTicks({ low, high });
  const numbers = axisNumbers(at, unit === "1" ? "" : unit, Math.max(Math.abs(least), Math.abs(most)));
  return { traces, low, high, height: bandHeight, ticks: at, ...numbers };
}

/** As few as tell a scale: at least two, three about nought. */
function scaleTicks({ low, high }: { low: number; high: number }): readonly number[] {
  const least = low < 0 ? 3 : 2;
  for (const wanted of [3, 4, 5]) {
    const found = ticks({ low, high, wanted });
    if (found.length >= least) return found;
  }
  return ticks({ low, high, wanted: 6 });
}

/** From nought, or about it; a ripple on something steady fills the band. */
function limits(least: number, most: number): readonly [number, number] {
  const span = most - least;
  if (least < 0) {
    const greatest = 1.08 * Math.max(-least, most);
    return [-greatest, greatest];
  }
  if (span > 0 && span < 0.2 * most) return [least - 0.2 * span, most + 0.2 * span];
  return [0, 1.08 * most || 1];
}

function legend({ traces, unit }: Band, { x, y }: At, width: Metre): readonly Item[] {
  return traces.flatMap(({ says }, n): Item[] => {
    const base = y + (n + 1) * row - 0.8 * mm;
    const text = fitted(unit === "" ? says : `${says}, ${unit}`, {
      width: width - 6 * mm,
      size,
      least: 1.7 * mm,
      face: "regular",
    });
    return [
      {
        kind: "path",
        segments: polyline([
          { x, y: base - 0.7 * mm },
          { x: x + 4.6 * mm, y: base - 0.7 * mm },
        ]),
        width: weight.line,
        ...pens[n % pens.length],
      },
      { ...word("", { x: x + 6 * mm, y: base }), ...text } as Item,
    ];
  });
}

function scaleOf({ low, high, ticks: at, numbers }: Band, box: Box): readonly Item[] {
  return [
    { kind: "path", segments: rectangle(box), width: weight.fine, tone: "rule" },
    ...at.flatMap((tick, n): Item[] => {
      const y = box.y + box.height * (1 - (tick - low) / (high - low));
      return [
        {
          kind: "path",
          segments: polyline([
            { x: box.x, y },
            { x: box.x + box.width, y },
          ]),
          width: weight.fine,
          tone: "hair",
        },
        word(numbers[n] ?? "", { x: box.x - 1 * mm, y: y + 0.36 * size }, { anchor: "end" }),
      ];
    }),
  ];
}

interface Field {
  readonly box: Box;
  readonly across: (at: number) => Metre;
}

const line = (
  at: readonly number[],
  values: readonly number[],
  { band: { low, high }, box, across }: Field & { readonly band: Band },
  n: number,
): Item => ({
  kind: "path",
  segments: polyline(
    values.map((value, k) => ({ x: across(at[k] ?? 0), y: box.y + box.height * (1 - (value - low) / (high - low)) })),
  ),
  width: values.length > 400 ? weight.fine : weight.thin,
  ...pens[n % pens.length],
  clip: box,
  role: "expected-line",
});

const marks = ({ marks: all }: ExpectedPicture, { box, across }: Field): readonly Item[] =>
  all.map(({ at }): Item => {
    const x = across(at);
    return {
      kind: "path",
      segments: polyline([
        { x, y: box.y },
        { x, y: box.y + box.height },
      ]),
      width: weight.thin,
      tone: "stop",
      dash: [0.8 * mm, 0.8 * mm],
    };
  });

/** Numbers below the last band, those at its ends drawn in. */
function abscissa(
  { against, unit }: ExpectedPicture,
  { x, y }: At,
  { across, first, last }: { across: (at: number) => Metre; first: number; last: number },
): readonly Item[] {
  const base = y + footRow - 0.7 * mm;
  const right = across(last);
  const at = ticks({ low: first, high: last, wanted: 4 });
  const numbers = axisNumbers(at, unit === "1" ? "" : unit, last);
  const name = numbers.unit === "" ? against : numbers.unit;
  return [
    word(name, { x: x - 1 * mm, y: base }, { tone: "soft", anchor: "end" }),
    ...at.flatMap((tick, n): Item[] => {
      const text = numbers.numbers[n] ?? "";
      const half = widthOf(text, { size, face: "regular" }) / 2;
      const middle = Math.min(Math.max(across(tick), x + half), right - half);
      return [word(text, { x: middle, y: base }, { anchor: "middle" })];
    }),
  ];
}

/** What the dashed lines are, from left to right. */
function wordsOf({ marks: all }: ExpectedPicture, width: Metre): readonly string[] {
  const said = [...new Set(all.toSorted((a, b) => a.at - b.at).map(({ says }) => says))];
  if (said.length === 0) return [];
  const order = said.length > 1 ? "dashed, from the left" : "dashed";
  return wrapped(`${order}: ${said.join("; ")}`, { width, size, face: "regular" });
}
