/** A drawing of the room on a page: to a scale that a rule can be laid against, each mark with its name beside it. */
import type { Metre } from "../../units/si.ts";
import type { PlanePoint } from "../drawing.ts";
import type { FloorDrawing, FloorMark, FloorTone } from "../standoff-plan.ts";
import { widthOf } from "./measure.ts";
import { type At, type Box, type Item, polyline, rectangle, type Tone, weight } from "./page.ts";
import { shapeSegments } from "./strokes.ts";
import { drawnWord } from "./tiles.ts";

const mm = 1e-3;

interface Pen {
  readonly tone: Tone;
  readonly width: Metre;
  readonly dash?: readonly Metre[];
  readonly fill?: Tone;
}

/** Told apart by weight, dash and the word beside it, so that no colour is needed. */
const pens: Readonly<Record<FloorTone, Pen>> = {
  coil: { tone: "ink", width: weight.thin, fill: "wash" },
  arc: { tone: "stop", width: weight.strong },
  strike: { tone: "stop", width: weight.line, dash: [2.4 * mm, 1.2 * mm] },
  line: { tone: "guide", width: 0.8 * mm },
  barrier: { tone: "ink", width: 0.6 * mm, dash: [0.7 * mm, 1 * mm] },
  room: { tone: "steel", width: weight.strong },
  people: { tone: "ink", width: weight.line, fill: "paper" },
  crew: { tone: "ink", width: weight.line, fill: "wash" },
  metal: { tone: "steel", width: weight.line },
  ground: { tone: "steel", width: weight.strong },
};

const scales = {
  mm: [10, 15, 20, 25, 30, 40, 50, 60, 75, 80, 100, 120, 125, 150, 200, 250, 300, 400, 500, 750, 1000],
  /** Of an inch, or a part of one that a rule has, to so many feet. */
  in: [12, 16, 24, 32, 48, 64, 96, 120, 128, 192, 240, 384, 480, 768, 960],
} as const;

/** Metres for each metre of paper: the least of the usual scales at which `across` by `up` fits the room that there is. */
export function floorScale(
  { across, up }: { across: Metre; up: Metre },
  { width, height }: { width: Metre; height: Metre },
  lengths: keyof typeof scales,
): number {
  const needed = Math.max(across / width, up / height);
  return scales[lengths].find((one) => one >= needed) ?? Math.ceil(needed / 100) * 100;
}

/** The drawing, its middle above the middle of the box and its upper edge along the box's own. */
export function floorItems(drawn: FloorDrawing, { area, ratio }: { area: Box; ratio: number }): readonly Item[] {
  const { box, marks } = drawn;
  const scale = 1 / ratio;
  const middle = { x: area.x + area.width / 2, y: area.y };
  const place = ({ x, z }: PlanePoint): At => ({
    x: middle.x + (x - (box.left + box.right) / 2) * scale,
    y: middle.y + (box.top - z) * scale,
  });
  const paths = marks.map(({ id, tone, strokes }): Item => {
    const { fill, ...pen } = pens[tone];
    const closed = strokes.every((stroke) => stroke.kind === "arc" || stroke.closed);
    return {
      kind: "path",
      segments: shapeSegments(strokes, { place, scale }),
      ...pen,
      ...(fill && closed ? { fill } : {}),
      clip: area,
      role: `floor-${id}`,
    };
  });
  return [...paths, ...labels(marks, { area, place, scale })];
}

const size = 2.5 * mm;
const high = size * 1.25;

/** A word's own room, about its middle. */
const around = ({ x, y }: At, width: Metre): Box => ({ x: x - width / 2, y: y - high / 2, width, height: high });

const meet = (a: Box, b: Box): boolean =>
  a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

interface Tried {
  readonly mark: At;
  readonly at: At;
  readonly lead: boolean;
}

interface OnPage {
  readonly area: Box;
  readonly place: (at: PlanePoint) => At;
  readonly scale: number;
}

/** Each word at the first place about its mark that no other word and no small mark has; further off, a line leads to it. */
function labels(marks: readonly FloorMark[], { area, place, scale }: OnPage): readonly Item[] {
  const taken: Box[] = marks.flatMap(({ strokes }) =>
    strokes.flatMap((stroke): Box[] => {
      if (stroke.kind !== "arc") return [];
      const { x, y } = place(stroke.centre);
      const half = stroke.radius * scale;
      return half < 8 * mm ? [{ x: x - half, y: y - half, width: 2 * half, height: 2 * half }] : [];
    }),
  );
  const leads: Item[] = [];
  const words: Item[] = [];
  for (const mark of marks) {
    if (mark.label === undefined) continue;
    const { text } = mark.label;
    const width = widthOf(text, { size, face: "regular" }) + 1.2 * mm;
    const inside = (box: Box) =>
      box.x >= area.x &&
      box.x + box.width <= area.x + area.width &&
      box.y >= area.y &&
      box.y + box.height <= area.y + area.height;
    const found = places(mark, mark.label, { area, place, scale }, width).find(({ at }) => {
      const box = around(at, width);
      return inside(box) && !taken.some((one) => meet(one, box));
    });
    // so many marks that no place is left: the table above has the distance
    if (found === undefined) continue;
    const box = around(found.at, width);
    taken.push(box);
    if (found.lead)
      leads.push({
        kind: "path",
        segments: polyline([found.mark, found.at]),
        width: weight.fine,
        tone: "ink",
      });
    words.push(
      { kind: "path", segments: rectangle(box), fill: "paper" },
      drawnWord(text, { x: found.at.x, y: found.at.y + 0.36 * size }, { size, width: area.width }),
    );
  }
  return [...leads, ...words];
}

/** Angles about a ring, from its top. */
const turns = [0, 20, -20, 40, -40, 60, -60, 180, 160, -160, 140, -140, 90, -90].map((turn) => (turn / 180) * Math.PI);
const offsets = [0, 3, 6, 9, 12, 16, 20, 26, 32].map((one) => one * mm);

type Label = NonNullable<FloorMark["label"]>;

function places(mark: FloorMark, label: Label, { place, scale }: OnPage, width: Metre): readonly Tried[] {
  const [ring, ...others] = mark.strokes;
  if (ring?.kind === "arc" && others.length === 0 && ring.radius * scale > 3 * mm) {
    const centre = place(ring.centre);
    const radius = ring.radius * scale;
    return offsets.flatMap((off) =>
      turns.map((turn): Tried => {
        const on = (by: Metre): At => ({ x: centre.x + by * Math.sin(turn), y: centre.y - by * Math.cos(turn) });
        return { mark: on(radius), at: on(radius + off), lead: off > 0 };
      }),
    );
  }
  const { anchor } = label;
  const across = anchor === "middle" ? 0 : (anchor === "end" ? -1 : 1) * (width / 2 + 0.5 * mm);
  const from = place(label.at);
  const at = { x: from.x + across, y: from.y };
  return offsets.flatMap((off) =>
    turns.map((turn): Tried => {
      const reach = high / 2 + off;
      return {
        mark: from,
        at: {
          x: at.x + (reach + Math.abs(Math.sin(turn)) * (width / 2)) * Math.sin(turn),
          y: at.y - reach * Math.cos(turn),
        },
        lead: off > 0,
      };
    }),
  );
}

/** A bar to read distances off, `0` at its left end. */
export function scaleBar({ x, y }: At, { ratio, lengths }: { ratio: number; lengths: "mm" | "in" }): readonly Item[] {
  const unit = lengths === "mm" ? 1 : 0.3048;
  const most = (45 * mm * ratio) / unit;
  const steps = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100];
  const step = steps.findLast((one) => 2 * one <= most) ?? 0.1;
  const wide = (step * unit) / ratio;
  const parts = Math.min(5, Math.floor(most / step));
  return [
    ...Array.from(
      { length: parts },
      (_, n): Item => ({
        kind: "path",
        segments: rectangle({ x: x + n * wide, y, width: wide, height: 1.4 * mm }),
        width: weight.thin,
        fill: n % 2 === 0 ? "ink" : "paper",
        ...(n === 0 ? { role: "floor-bar" } : {}),
      }),
    ),
    drawnWord("0", { x, y: y + 4.2 * mm }, { size: 2.3 * mm }),
    drawnWord(
      `${Number((parts * step).toPrecision(3))}\u00a0${lengths === "mm" ? "m" : "ft"}`,
      { x: x + parts * wide, y: y + 4.2 * mm },
      { size: 2.3 * mm },
    ),
  ];
}
