/** Tracks → DXF as text, release 12 of the format with the header variable of the unit: circles, and polylines with bulges. */
import type { CutDrawing, Layer, Track } from "./track.ts";

/** Metres in a unit, and the header's word for it (1 inch, 4 millimetre). */
const units = {
  mm: { size: 1e-3, insertion: 4, measurement: 1, digits: 5 },
  in: { size: 0.0254, insertion: 1, measurement: 0, digits: 7 },
} as const;

/** Colour numbers of the format that tell the layers apart on dark and light grounds. */
const colours: Readonly<Record<Layer, number>> = {
  outline: 7,
  drill: 1,
  guide: 8,
  "copper-upper": 3,
  "copper-lower": 5,
};

/** By which a drawing of the house is known: a comment in the format. */
export const dxfBeginning = "999\r\nCoilwright papers\r\n";

export function dxfOf({ tracks }: CutDrawing, { lengths }: { lengths: keyof typeof units }): string {
  const unit = units[lengths];
  const number = (metre: number) => String(Number((metre / unit.size).toFixed(unit.digits)));
  const layers = [...new Set(tracks.map(({ layer }) => layer))];
  const pairs: (readonly [number, string | number])[] = [
    [999, "Coilwright papers"],
    [0, "SECTION"],
    [2, "HEADER"],
    [9, "$ACADVER"],
    [1, "AC1009"],
    [9, "$INSUNITS"],
    [70, unit.insertion],
    [9, "$MEASUREMENT"],
    [70, unit.measurement],
    [0, "ENDSEC"],
    [0, "SECTION"],
    [2, "TABLES"],
    [0, "TABLE"],
    [2, "LAYER"],
    [70, layers.length],
    ...layers.flatMap((layer): (readonly [number, string | number])[] => [
      [0, "LAYER"],
      [2, nameOf(layer)],
      [70, 0],
      [62, colours[layer]],
      [6, "CONTINUOUS"],
    ]),
    [0, "ENDTAB"],
    [0, "ENDSEC"],
    [0, "SECTION"],
    [2, "ENTITIES"],
    ...tracks.flatMap((track) => entity(track, number)),
    [0, "ENDSEC"],
    [0, "EOF"],
  ];
  return pairs.map(([code, value]) => `${String(code).padStart(3)}\r\n${value}\r\n`).join("");
}

const nameOf = (layer: Layer) => layer.toUpperCase();

function entity(track: Track, number: (metre: number) => string): (readonly [number, string | number])[] {
  const layer = nameOf(track.layer);
  if (track.kind === "circle") {
    return [
      [0, "CIRCLE"],
      [8, layer],
      [10, number(track.x)],
      [20, number(track.y)],
      [30, 0],
      [40, number(track.radius)],
    ];
  }
  return [
    [0, "POLYLINE"],
    [8, layer],
    [66, 1],
    [10, 0],
    [20, 0],
    [30, 0],
    [70, track.closed ? 1 : 0],
    ...track.points.flatMap(({ x, y, bulge }): (readonly [number, string | number])[] => [
      [0, "VERTEX"],
      [8, layer],
      [10, number(x)],
      [20, number(y)],
      [30, 0],
      ...(bulge ? [[42, Number(bulge.toFixed(9))] as const] : []),
    ]),
    [0, "SEQEND"],
    [8, layer],
  ];
}
