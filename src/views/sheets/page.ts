/** What a sheet of paper is made of: strokes and words at true size, before any file format. */
import type { Metre } from "../../units/si.ts";

/** A point of a page: x from its left edge, y down from its upper edge. */
export interface At {
  readonly x: Metre;
  readonly y: Metre;
}

export interface Box extends At {
  readonly width: Metre;
  readonly height: Metre;
}

/** A piece of a path. Curves are cubic, with their two control points. */
export type Segment =
  | { readonly kind: "move"; readonly to: At }
  | { readonly kind: "line"; readonly to: At }
  | { readonly kind: "curve"; readonly first: At; readonly second: At; readonly to: At }
  | { readonly kind: "close" };

/** Inks of the sheets; `paper` covers what is below it. */
export type Tone = "ink" | "soft" | "rule" | "hair" | "copper" | "steel" | "guide" | "stop" | "wash" | "paper";

export interface PathItem {
  readonly kind: "path";
  readonly segments: readonly Segment[];
  /** Of the stroke; absent where it is only filled. */
  readonly width?: Metre;
  readonly tone?: Tone;
  readonly fill?: Tone;
  /** Lengths of dash and gap. */
  readonly dash?: readonly Metre[];
  /** Nothing is drawn outside. */
  readonly clip?: Box;
  /** What it is, for those who measure the page. */
  readonly role?: string;
}

export type Face = "regular" | "bold";

export interface TextItem extends At {
  readonly kind: "text";
  readonly text: string;
  /** Of the letters, from line to line set solid. */
  readonly size: Metre;
  readonly face: Face;
  readonly tone: Tone;
  /** Which point of the base line stands at (x, y). */
  readonly anchor: "start" | "middle" | "end";
  /** Reads upwards. */
  readonly upright?: boolean;
}

export type Item = PathItem | TextItem;

/** One side of a sheet of paper. */
export interface Page {
  readonly width: Metre;
  readonly height: Metre;
  readonly title: string;
  readonly items: readonly Item[];
}

const mm = 1e-3;
/** Line weights. */
export const weight = { fine: 0.13 * mm, thin: 0.18 * mm, line: 0.25 * mm, strong: 0.5 * mm } as const;

/** Straight lines through points. */
export function polyline(points: readonly At[], closed = false): readonly Segment[] {
  return [
    ...points.map((to, n): Segment => ({ kind: n === 0 ? "move" : "line", to })),
    ...(closed ? [{ kind: "close" } as const] : []),
  ];
}

export const rectangle = ({ x, y, width, height }: Box): readonly Segment[] =>
  polyline(
    [
      { x, y },
      { x: x + width, y },
      { x: x + width, y: y + height },
      { x, y: y + height },
    ],
    true,
  );

/** Length of a control arm over the radius, for an arc of this angle. */
const arm = (angle: number) => (4 / 3) * Math.tan(angle / 4);

/**
 * An arc about a centre, from angle to angle, clockwise on the page where `to` is greater.
 *
 * @validity  pieces of at most an eighth of a turn: the curve leaves the circle by less than 5e-6 of the radius
 */
export function arc({ centre, radius, from, to }: { centre: At; radius: Metre; from: number; to: number }): Segment[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(to - from) / (Math.PI / 4) - 1e-9));
  const step = (to - from) / pieces;
  const on = (angle: number): At => ({
    x: centre.x + radius * Math.cos(angle),
    y: centre.y + radius * Math.sin(angle),
  });
  const ahead = (angle: number, by: number): At => ({
    x: centre.x + radius * (Math.cos(angle) - by * Math.sin(angle)),
    y: centre.y + radius * (Math.sin(angle) + by * Math.cos(angle)),
  });
  const segments: Segment[] = [{ kind: "move", to: on(from) }];
  for (let n = 0; n < pieces; n++) {
    const [a, b] = [from + n * step, from + (n + 1) * step];
    segments.push({ kind: "curve", first: ahead(a, arm(step)), second: ahead(b, -arm(step)), to: on(b) });
  }
  return segments;
}

/** A full circle. */
export const circle = (centre: At, radius: Metre): readonly Segment[] => [
  ...arc({ centre, radius, from: 0, to: 2 * Math.PI }),
  { kind: "close" },
];

/** The same items elsewhere. */
export function moved(items: readonly Item[], by: At): readonly Item[] {
  const shift = ({ x, y }: At): At => ({ x: x + by.x, y: y + by.y });
  return items.map((item) =>
    item.kind === "text"
      ? { ...item, ...shift(item) }
      : {
          ...item,
          ...(item.clip ? { clip: { ...item.clip, ...shift(item.clip) } } : {}),
          segments: mapPoints(item.segments, shift),
        },
  );
}

/** The same path with every point elsewhere. */
export const mapPoints = (segments: readonly Segment[], change: (at: At) => At): readonly Segment[] =>
  segments.map((segment) => {
    if (segment.kind === "close") return segment;
    if (segment.kind !== "curve") return { ...segment, to: change(segment.to) };
    return { ...segment, first: change(segment.first), second: change(segment.second), to: change(segment.to) };
  });
