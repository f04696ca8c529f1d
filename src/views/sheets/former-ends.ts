/** The ends of the former, and a strip of its length with the marks of the winding. */
import type { Metre } from "../../units/si.ts";
import { boxOfTracks, punch, trackItems } from "./cut-page.ts";
import { framed } from "./frame.ts";
import type { Item } from "./page.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { drawnWord, tiled } from "./tiles.ts";
import { type CutDrawing, straight, type Track } from "./track.ts";
import { markEvery } from "./winding-sheet.ts";
import { lengthText, markText } from "./words.ts";

const mm = 1e-3;
/** Bare tube beyond the winding, at each end of the strip. */
const beyond: Metre = 15 * mm;
const pilot: Metre = 1.5 * mm;
const fixings = 3;

function endTracks(outer: Metre): readonly Track[] {
  const circle = outer / 2;
  const at = (radius: Metre, n: number, of: number) => ({
    x: radius * Math.cos(Math.PI / 2 + (2 * Math.PI * n) / of),
    y: radius * Math.sin(Math.PI / 2 + (2 * Math.PI * n) / of),
  });
  return [
    { kind: "circle", layer: "outline", x: 0, y: 0, radius: circle },
    { kind: "circle", layer: "drill", x: 0, y: 0, radius: pilot },
    { kind: "circle", layer: "guide", x: 0, y: 0, radius: circle * 0.6 },
    ...Array.from(
      { length: fixings },
      (_, n): Track => ({
        kind: "circle",
        layer: "drill",
        ...at(circle * 0.6, n, fixings),
        radius: pilot,
      }),
    ),
    ...Array.from({ length: 12 }, (_, n) => straight("guide", at(circle - 4 * mm, n, 12), at(circle, n, 12))),
  ];
}

function endItems(subject: SheetSubject, setting: SheetSetting, tracks: readonly Track[]): readonly Item[] {
  const outer = subject.coil.secondary.former.outerDiameter;
  const holes = tracks.flatMap((track) => (track.layer === "drill" && track.kind === "circle" ? [track] : []));
  return [
    ...trackItems(tracks),
    ...holes.map((hole) => punch(hole, Math.min(4 * mm, outer / 12))),
    drawnWord(
      `outer diameter of the former ${lengthText(outer, setting)}`,
      { x: 0, y: outer / 2 + 5 * mm },
      { width: Math.max(outer, 60 * mm) },
    ),
  ];
}

export const formerEnds: Sheet = {
  id: "former-ends",
  title: "Ends of the former",
  says: "a disc of the former's outer diameter to centre and drill its ends by",
  needs: [],
  lay: (subject, setting) => {
    const tracks = endTracks(subject.coil.secondary.former.outerDiameter);
    const box = boxOfTracks(tracks, 8 * mm);
    const { bodies, format } = tiled({
      items: endItems(subject, setting, tracks),
      box,
      paper: setting.paper,
      says: "1 : 1. The file knows the outside of the tube, not its wall: measure the bore before a plug is turned. Nylon screws, no metal in the tube; holes on the dashed circle are a proposal.",
    });
    return framed(bodies, { subject, setting, format, title: "Ends of the former", scale: "1 : 1" });
  },
  cut: ({ coil }): CutDrawing => ({
    name: `${coil.name}, ends of the former`,
    tracks: endTracks(coil.secondary.former.outerDiameter),
  }),
};

interface Mark {
  readonly turn: number;
  readonly at: Metre;
}

function marksOf({ turns, length }: SheetSubject["coil"]["secondary"]): readonly Mark[] {
  const every = markEvery(turns);
  const count = Math.floor(turns / every - 1e-9);
  return [0, ...Array.from({ length: count }, (_, n) => (n + 1) * every), turns].map((turn) => ({
    turn,
    at: (turn * length) / turns,
  }));
}

const stripWidth: Metre = 52 * mm;

function stripTracks(secondary: SheetSubject["coil"]["secondary"]): readonly Track[] {
  return [
    {
      kind: "chain",
      layer: "outline",
      closed: true,
      points: [
        { x: 0, y: -beyond },
        { x: stripWidth, y: -beyond },
        { x: stripWidth, y: secondary.length + beyond },
        { x: 0, y: secondary.length + beyond },
      ],
    },
    ...marksOf(secondary).map(({ at, turn }) =>
      straight("guide", { x: 0, y: at }, { x: turn === 0 || turn === secondary.turns ? stripWidth : 14 * mm, y: at }),
    ),
  ];
}

export const formerStrip: Sheet = {
  id: "former-strip",
  title: "Strip along the former",
  says: "begin, end and counted marks of the winding, at true size",
  needs: [],
  lay: (subject, setting) => {
    const { secondary } = subject.coil;
    const tracks = stripTracks(secondary);
    const unit = setting.lengths === "mm" ? "mm" : "inches";
    const items: Item[] = [
      ...trackItems(tracks),
      ...marksOf(secondary).flatMap(({ turn, at }): Item[] => [
        drawnWord(
          turn === 0 ? "begin, lower end" : turn === secondary.turns ? `end, turn ${turn}` : `turn ${turn}`,
          { x: 16 * mm, y: -at + (turn === secondary.turns ? -1.2 : turn === 0 ? 3.4 : 0.9) * mm },
          { anchor: "start", width: 24 * mm },
        ),
        drawnWord(
          markText(at, setting),
          { x: stripWidth - 2 * mm, y: -at + (turn === secondary.turns ? -1.2 : turn === 0 ? 3.4 : 0.9) * mm },
          { anchor: "end", size: 2.3 * mm, width: 14 * mm },
        ),
      ]),
    ];
    const { bodies, format } = tiled({
      items: spread(items),
      box: boxOfTracks(tracks, 4 * mm),
      paper: setting.paper,
      says: `1 : 1, numbers in ${unit} from the lower end of the winding. Cut out, join by the rings, and tape along the tube; the wire lies beside the strip's left edge.`,
    });
    return framed(bodies, { subject, setting, format, title: "Strip along the former", scale: "1 : 1" });
  },
  cut: ({ coil }): CutDrawing => ({
    name: `${coil.name}, strip along the former`,
    tracks: stripTracks(coil.secondary),
  }),
};

/** Leaves out words that would stand over the ones before: marks may be closer than a line of type. */
function spread(items: readonly Item[]): readonly Item[] {
  const taken: { x: number; y: number }[] = [];
  // begin and end come first
  const words = items.filter((item) => item.kind === "text").toSorted((a, b) => rank(b.text) - rank(a.text));
  const kept = new Set(
    words.filter(({ anchor, y }) => {
      const x = anchor === "start" ? 0 : 1;
      if (taken.some((other) => other.x === x && Math.abs(other.y - y) < 3.2 * mm)) return false;
      taken.push({ x, y });
      return true;
    }),
  );
  return items.filter((item) => item.kind === "path" || kept.has(item));
}

const rank = (text: string) => (/begin|end/.test(text) ? 1 : 0);
