/** The artwork of a primary that is printed on a board: its copper as true outlines. */
import type { Primary } from "../../description/coil.ts";
import type { Metre } from "../../units/si.ts";
import { boxOfTracks, punch, trackItems } from "./cut-page.ts";
import { framed } from "./frame.ts";
import type { Item } from "./page.ts";
import type { Format } from "./paper.ts";
import type { Sheet, SheetSubject } from "./sheet.ts";
import { bandOutline, conductorWidth, radiusAfter } from "./spiral.ts";
import { drawnWord, tiled } from "./tiles.ts";
import type { CutDrawing, Track, TrackPoint } from "./track.ts";
import { lengthText, shown } from "./words.ts";

const mm = 1e-3;
const edge: Metre = 6 * mm;

/** Where a turn of a face is, seen from above. */
const placeOf = (primary: Primary, turn: number, mirrored: boolean): TrackPoint => {
  const angle = (mirrored ? -1 : 1) * 2 * Math.PI * turn;
  const radius = radiusAfter(primary, turn);
  return { x: radius * Math.cos(angle), y: radius * Math.sin(angle) };
};

/** In series the current runs inwards on one face and outwards on the other: the lower spiral turns the other way, so that it goes round the same way. */
const isMirrored = ({ layers }: Primary) => layers.count === 2 && layers.connected === "series";

const via = (primary: Primary): Metre => Math.min(0.4 * mm, conductorWidth(primary) / 4);

function copper(primary: Primary, face: "upper" | "lower"): readonly Track[] {
  const mirrored = face === "lower" && isMirrored(primary);
  const layer = `copper-${face}` as const;
  const half = conductorWidth(primary) / 2;
  const pads = [0, primary.turns].map(
    (turn): Track => ({
      kind: "circle",
      layer,
      ...at(placeOf(primary, turn, mirrored)),
      radius: half * 1.2,
    }),
  );
  return [bandOutline(layer, { primary, from: 0, to: primary.turns, mirrored }), ...pads];
}

const at = ({ x, y }: TrackPoint) => ({ x, y });

/**
 * Where the board is drilled: at the inner end, where the faces are joined, and at the outer end.
 *
 * In series the outer ends are not drilled: they carry the whole voltage of the primary between them, and a plated hole through one may meet
 * the copper of the other.
 */
function drills(primary: Primary): readonly Track[] {
  const turns = isMirrored(primary) ? [0] : [0, primary.turns];
  return turns.map(
    (turn): Track => ({
      kind: "circle",
      layer: "drill",
      ...at(placeOf(primary, turn, false)),
      radius: via(primary),
    }),
  );
}

function board(primary: Primary): readonly Track[] {
  const radius = radiusAfter(primary, primary.turns) + conductorWidth(primary) + edge;
  return [{ kind: "circle", layer: "outline", x: 0, y: 0, radius }];
}

const artwork = (primary: Primary): readonly Track[] => [
  ...board(primary),
  ...copper(primary, "upper"),
  ...(primary.layers.count === 2 ? copper(primary, "lower") : []),
  ...drills(primary),
];

function faceItems(primary: Primary, face: "upper" | "lower"): readonly Item[] {
  const holes = drills(primary);
  const mirrored = face === "lower" && isMirrored(primary);
  const tap = placeOf(primary, primary.tap, mirrored);
  return [
    ...trackItems([...board(primary), ...copper(primary, face)]),
    ...holes.flatMap((hole): Item[] =>
      hole.kind === "circle"
        ? [
            {
              kind: "path",
              segments: trackItems([hole]).flatMap((item) => (item.kind === "path" ? item.segments : [])),
              fill: "paper",
              role: "drill",
            },
          ]
        : [],
    ),
    punch(tap, conductorWidth(primary) / 2, "paper"),
    punch({ x: 0, y: 0 }, 6 * mm, "ink"),
    drawnWord(`${face} face, seen from above`, { x: 0, y: -9 * mm }, { width: primary.firstTurnDiameter * 0.7 }),
    drawnWord(
      `cross: tap at ${shown(primary.tap, "1")} turns`,
      { x: 0, y: 12 * mm },
      { size: 2.2 * mm, width: primary.firstTurnDiameter * 0.6 },
    ),
  ];
}

const isPrinted = (primary: Primary | undefined): primary is Primary =>
  primary !== undefined && "trace" in primary.conductor;

const cut = ({ coil }: SheetSubject): CutDrawing => ({
  name: `${coil.name}, printed primary`,
  tracks: artwork(coil.primary as Primary),
});

export const printedPrimary: Sheet = {
  id: "printed-primary",
  title: "Printed primary",
  says: "the copper of each face as true outlines, with drills and the edge of the board",
  needs: [],
  without: ({ coil: { primary } }) => (isPrinted(primary) ? undefined : "the primary is not printed"),
  lay: (subject, setting) => {
    const primary = subject.coil.primary as Primary;
    const width = conductorWidth(primary);
    const thickness = "trace" in primary.conductor ? primary.conductor.trace.thickness : 0;
    const faces = primary.layers.count === 2 ? (["upper", "lower"] as const) : (["upper"] as const);
    const made = faces.map((face) =>
      tiled({
        items: faceItems(primary, face),
        box: boxOfTracks(artwork(primary), 3 * mm),
        paper: setting.paper,
        says: `1 : 1, both faces seen from above, not mirrored. Trace ${lengthText(width, setting)} wide, ${lengthText(thickness, setting)} thick, ${lengthText(primary.pitch - width, setting)} between turns. Faces ${primary.layers.count === 1 ? "single" : primary.layers.connected === "series" ? "in series, joined at the inner end; the outer ends lie over each other and are not drilled" : "in parallel, joined at both ends"}.`,
      }),
    );
    const bodies = made.flatMap((face) => face.bodies);
    const format = made[0]?.format as Format;
    return framed(bodies, { subject, setting, format, title: "Printed primary", scale: "1 : 1" });
  },
  cut,
};
