/** The primary seen from above, at true size: where the conductor runs, where its supports stand, where the tap sits. */
import type { Primary } from "../../description/coil.ts";
import type { Metre } from "../../units/si.ts";
import { boxOfTracks, punch, trackItems } from "./cut-page.ts";
import { framed } from "./frame.ts";
import type { Item } from "./page.ts";
import type { Sheet, SheetSetting, SheetSubject } from "./sheet.ts";
import { bandOutline, centreLine, conductorWidth, radiusAfter } from "./spiral.ts";
import { drawnWord, tiled } from "./tiles.ts";
import { type CutDrawing, straight, type Track, type TrackPoint } from "./track.ts";
import { lengthText, shown } from "./words.ts";

const mm = 1e-3;
/** Radial supports about a primary. */
export const supportCount = (primary: Primary): number => (radiusAfter(primary, primary.turns) > 0.2 ? 8 : 6);

/** Whether the turns lie on a cylinder, so that all of them are one circle in plan. */
export const isHelix = ({ angle }: Primary) => Math.cos(angle) < 1e-6;

/** Where the conductor crosses support `index`, first turn first, in turns from the start. */
export function crossings(primary: Primary, index: number): readonly number[] {
  const offset = index / supportCount(primary);
  return Array.from({ length: Math.floor(primary.turns - offset + 1e-9) + 1 }, (_, n) => n + offset);
}

const polar = (radius: Metre, angle: number): TrackPoint => ({
  x: radius * Math.cos(angle),
  y: radius * Math.sin(angle),
});

function planTracks(primary: Primary, former: Metre): readonly Track[] {
  const { turns, strikeRing } = primary;
  const count = supportCount(primary);
  const width = conductorWidth(primary);
  const spiral: Track[] = isHelix(primary)
    ? [
        { kind: "circle", layer: "guide", x: 0, y: 0, radius: radiusAfter(primary, 0) },
        { kind: "circle", layer: "outline", x: 0, y: 0, radius: radiusAfter(primary, 0) - width / 2 },
        { kind: "circle", layer: "outline", x: 0, y: 0, radius: radiusAfter(primary, 0) + width / 2 },
      ]
    : [bandOutline("outline", { primary, from: 0, to: turns }), centreLine("guide", { primary, from: 0, to: turns })];
  const inner = Math.max(former / 2 + 3 * mm, radiusAfter(primary, 0) - 3 * width);
  const outer = radiusAfter(primary, turns) + 2 * width;
  return [
    ...spiral,
    { kind: "circle", layer: "outline", x: 0, y: 0, radius: former / 2 },
    ...Array.from({ length: count }, (_, n) => {
      const angle = (2 * Math.PI * n) / count;
      return straight("guide", polar(inner, angle), polar(outer, angle));
    }),
    ...(strikeRing ? [{ kind: "circle", layer: "guide", x: 0, y: 0, radius: strikeRing.diameter / 2 } as const] : []),
  ];
}

/** Holes for what ties the conductor down: two beside it at every crossing. */
function tieHoles(primary: Primary): readonly Track[] {
  const count = supportCount(primary);
  const radius = 1.6 * mm;
  return Array.from({ length: count }, (_, n) => n).flatMap((n) =>
    crossings(primary, n).map((turn): Track => {
      const at = polar(radiusAfter(primary, turn), (2 * Math.PI * n) / count);
      return { kind: "circle", layer: "drill", ...at, radius };
    }),
  );
}

const drilled = (primary: Primary): readonly Track[] => (isHelix(primary) ? [] : tieHoles(primary));

function planItems({ coil }: SheetSubject, setting: SheetSetting, tracks: readonly Track[]): readonly Item[] {
  const primary = coil.primary as Primary;
  const { tap, turns } = primary;
  const count = supportCount(primary);
  const holes = drilled(primary);
  const punches = holes.flatMap((track) => (track.kind === "circle" ? [punch(track, 3 * mm)] : []));
  const outer = Math.max(
    radiusAfter(primary, turns) + 2 * conductorWidth(primary) + 4 * mm,
    (primary.strikeRing?.diameter ?? 0) / 2 + 6 * mm,
  );
  const numbers = Array.from({ length: count }, (_, n): Item => {
    const { x, y } = polar(outer, (2 * Math.PI * n) / count);
    return drawnWord(`S${n + 1}`, { x, y: -y + 1.2 * mm }, { size: 3.4 * mm, width: 9 * mm });
  });
  const tapAt = polar(radiusAfter(primary, tap), 2 * Math.PI * tap);
  const start = polar(radiusAfter(primary, 0), 0);
  const beside = conductorWidth(primary) / 2 + 3.5 * mm;
  return [
    ...trackItems([...tracks, ...holes]),
    ...punches,
    punch({ x: 0, y: 0 }, 8 * mm, "ink"),
    ...numbers,
    ...(isHelix(primary)
      ? []
      : [
          punch(tapAt, 6 * mm, "ink"),
          drawnWord(`tap, ${shown(tap, "1")} turns`, { x: tapAt.x, y: -tapAt.y + beside + 2 * mm }),
        ]),
    drawnWord("start", { x: start.x - beside, y: -start.y - 2 * mm }, { anchor: "end" }),
    drawnWord(
      `former ${lengthText(coil.secondary.former.outerDiameter, setting)}`,
      { x: 0, y: -coil.secondary.former.outerDiameter / 2 + 6 * mm },
      { width: coil.secondary.former.outerDiameter * 0.6 },
    ),
  ];
}

const cut = ({ coil }: SheetSubject): CutDrawing => {
  const primary = coil.primary as Primary;
  return {
    name: `${coil.name}, primary from above`,
    tracks: [...planTracks(primary, coil.secondary.former.outerDiameter), ...drilled(primary)],
  };
};

export const primaryPlan: Sheet = {
  id: "primary-plan",
  title: "Primary from above",
  says: "the spiral at true size, with supports, holes and tap",
  needs: [],
  without: ({ coil: { primary } }) =>
    primary === undefined
      ? "the coil file has no primary"
      : "trace" in primary.conductor
        ? "the primary is printed: its own sheet has it"
        : undefined,
  lay: (subject, setting) => {
    const primary = subject.coil.primary as Primary;
    const tracks = planTracks(primary, subject.coil.secondary.former.outerDiameter);
    const says = isHelix(primary)
      ? `Base of the helix, seen from above, 1 : 1. S1 to S${supportCount(primary)}: supports. The turns stand above this circle; the strips for the supports have their heights.`
      : `Seen from above, 1 : 1, wound outwards and anticlockwise. Conductor ${lengthText(conductorWidth(primary), setting)}, pitch ${lengthText(primary.pitch, setting)}${primary.angle > 1e-6 ? " along the slope, here as seen in plan" : ""}. S1 to S${supportCount(primary)}: supports. Red: holes for ties, ${lengthText(3.2 * mm, setting, 2)}.`;
    const { bodies, format } = tiled({
      items: planItems(subject, setting, tracks),
      box: boxOfTracks(tracks, 10 * mm),
      paper: setting.paper,
      says,
    });
    return framed(bodies, { subject, setting, format, title: "Primary from above", scale: "1 : 1" });
  },
  cut,
};
