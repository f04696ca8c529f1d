/** Strips to glue on the supports of the primary: where the conductor crosses each. */
import type { Primary } from "../../description/coil.ts";
import type { Metre } from "../../units/si.ts";
import { boxOfTracks, punch, trackItems } from "./cut-page.ts";
import { framed } from "./frame.ts";
import type { Item } from "./page.ts";
import { crossings, isHelix, supportCount } from "./primary-plan.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { conductorWidth } from "./spiral.ts";
import { drawnWord, tiled } from "./tiles.ts";
import { type CutDrawing, straight, type Track } from "./track.ts";
import { lengthText } from "./words.ts";

const mm = 1e-3;

interface Strip {
  readonly index: number;
  /** Distances of the crossings from the strip's zero, along the slope. */
  readonly at: readonly Metre[];
  /** Height of the strip's middle on the drawing. */
  readonly y: Metre;
}

const stripHeight = (primary: Primary): Metre => Math.max(16 * mm, 2 * conductorWidth(primary));
const lead = 12 * mm;

/** Along the slope from where turn 0 begins; the strips of a flat spiral read from the first turn's radius outwards. */
function strips(primary: Primary): readonly Strip[] {
  const row = stripHeight(primary) + 9 * mm;
  return Array.from({ length: supportCount(primary) }, (_, index) => ({
    index,
    at: crossings(primary, index).map((turn) => turn * primary.pitch),
    y: -index * row,
  }));
}

function tracksOf(primary: Primary): readonly Track[] {
  const half = stripHeight(primary) / 2;
  const radius = conductorWidth(primary) / 2;
  const long = primary.turns * primary.pitch + lead;
  return strips(primary).flatMap(({ at, y }): Track[] => [
    {
      kind: "chain",
      layer: "outline",
      closed: true,
      points: [
        { x: -lead, y: y - half },
        { x: long, y: y - half },
        { x: long, y: y + half },
        { x: -lead, y: y + half },
      ],
    },
    straight("guide", { x: 0, y: y - half }, { x: 0, y: y + half }),
    straight("guide", { x: -lead, y }, { x: long, y }),
    ...at.map((x): Track => ({ kind: "circle", layer: "drill", x, y, radius })),
  ]);
}

function itemsOf(primary: Primary, setting: SheetSetting, tracks: readonly Track[]): readonly Item[] {
  const half = stripHeight(primary) / 2;
  return [
    ...trackItems(tracks),
    ...strips(primary).flatMap(({ index, at, y }): Item[] => [
      ...at.map((x) => punch({ x, y }, conductorWidth(primary) / 2 + 2 * mm)),
      drawnWord(
        `S${index + 1}: first crossing ${lengthText(at[0] ?? 0, setting)} from the zero line, then every ${lengthText(primary.pitch, setting)}`,
        { x: -lead, y: -y - half - 1.6 * mm },
        { anchor: "start", width: 120 * mm },
      ),
    ]),
  ];
}

const cut = ({ coil }: SheetSubject): CutDrawing => ({
  name: `${coil.name}, supports of the primary`,
  tracks: tracksOf(coil.primary as Primary),
});

export const primarySupports: Sheet = {
  id: "primary-supports",
  title: "Supports of the primary",
  says: "a strip for each support, at true size along its slope",
  needs: [],
  without: ({ coil: { primary } }) =>
    primary === undefined
      ? "the coil file has no primary"
      : "trace" in primary.conductor
        ? "a printed primary has no supports"
        : undefined,
  lay: (subject, setting) => {
    const primary = subject.coil.primary as Primary;
    const tracks = tracksOf(primary);
    const zero = isHelix(primary)
      ? `The zero line is the height of the first turn's centre, ${lengthText(primary.baseHeight, setting)} above the ground plane; heights run to the right.`
      : `The zero line lies ${lengthText(primary.firstTurnDiameter / 2, setting)} from the axis; the right end points outwards.`;
    const { bodies, format } = tiled({
      items: itemsOf(primary, setting, tracks),
      box: boxOfTracks(tracks, 6 * mm),
      paper: setting.paper,
      says: `${zero} S1, S2 … follow each other anticlockwise, seen from above; circles are the conductor, ${lengthText(conductorWidth(primary), setting)}.`,
    });
    return framed(bodies, { subject, setting, format, title: "Supports of the primary", scale: "1 : 1" });
  },
  cut,
};
