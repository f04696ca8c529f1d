import type { RecordValue } from "../../catalogue/keys.ts";
import { defineKeys } from "../../catalogue/keys.ts";
import type { Metre } from "../../units/si.ts";
import { conductorCases } from "../case-of.ts";
import type { Ring } from "../shape.ts";

/** A flat spiral, a cone or a helix, told apart by its angle alone; in one layer, or printed in two. */
export const wound = {
  kind: "wound",
  says: "turns at even pitch on a plane, a cone or a cylinder",
  keys: defineKeys({
    angle: {
      dimension: "angle",
      default: "0° (drawn)",
      example: "0°",
      says: "0° is a flat spiral, 90° a helix, between them a cone that opens upwards",
    },
    turns: { kind: "number", required: true, from: 1, to: 200, says: "wound, of each layer" },
    tap: {
      kind: "number",
      from: 0.05,
      to: 200,
      derived: { from: "turns", by: (turns) => turns, says: "all turns", origin: "drawn" },
      says: "turns in circuit, of each layer, counted from the first turn",
    },
    firstTurnDiameter: {
      dimension: "length",
      required: true,
      from: "5 mm",
      to: "20 m",
      example: "176 mm",
      says: "of the innermost (of a helix: lowest) turn's centre line",
    },
    pitch: {
      dimension: "length",
      required: true,
      from: "0.05 mm",
      to: "1 m",
      example: "13 mm",
      tolerance: "wire",
      says: "centre to centre of neighbouring turns",
    },
    conductor: {
      kind: "oneOf",
      required: true,
      says: "what it is wound of",
      cases: conductorCases,
    },
    layers: {
      kind: "record",
      always: true,
      says: "one layer, or two of the same turns on both faces of a board",
      keys: {
        count: { kind: "count", default: 1, from: 1, to: 2, only: [1, 2], says: "number of layers" },
        gap: {
          dimension: "length",
          default: "1.6 mm (guessed)",
          from: "0.01 mm",
          to: "1 m",
          example: "1.6 mm",
          says: "centre to centre of the two layers",
        },
        connected: {
          kind: "choice",
          default: "series",
          options: { series: "the current passes one layer after the other", parallel: "the layers share the current" },
          says: "how two layers are joined",
        },
      },
    },
    baseHeight: {
      dimension: "length",
      required: true,
      example: "185 mm",
      says: "of the first turn's centre line above the ground plane",
    },
  }),
} as const;

/** What the rings of a primary depend on: a part of the coil file's `primary`. */
export type WoundSize = Pick<
  RecordValue<(typeof wound)["keys"]>,
  "angle" | "turns" | "tap" | "firstTurnDiameter" | "pitch" | "layers" | "baseHeight"
>;

/**
 * The turns in circuit as circular filaments, first turn first, layer after layer.
 *
 * Turn k (from 0) of the first layer: radius = firstTurnDiameter/2 + k·pitch·cos(angle), height = baseHeight + k·pitch·sin(angle). The second
 * layer is moved by the gap at a right angle to the winding: upwards for a flat spiral, inwards for a helix. Where the tap is not a whole
 * number the last ring of each layer has a share below 1.
 *
 * @returns rings with share in (0, 1]; their shares add up to tap · layers
 * @validity a spiral turn is taken as the circle through its own start; exact only for pitch ≪ radius
 */
export function rings(size: WoundSize): readonly Ring[] {
  return everyLayer(size, ({ ring, index }) => {
    const share = Math.min(1, size.tap - index);
    // A tap of 6 that arrives as 6.000000001 by arithmetic has no seventh turn.
    return share > 1e-9 ? { ...ring, share } : undefined;
  });
}

/** The turns beyond the tap, in the same order, with share 0: conductors for the electric field that carry no current. */
export function unusedRings(size: WoundSize): readonly Ring[] {
  return everyLayer(size, ({ ring, index }) => (size.tap - index > 1e-9 ? undefined : { ...ring, share: 0 }));
}

function everyLayer(
  { angle, turns, firstTurnDiameter, pitch, layers, baseHeight }: WoundSize,
  choose: (turn: { ring: { radius: Metre; height: Metre }; index: number }) => Ring | undefined,
): readonly Ring[] {
  const [along, up] = [Math.cos(angle), Math.sin(angle)];
  const chosen: Ring[] = [];
  for (let layer = 0; layer < layers.count; layer++) {
    for (let index = 0; index < Math.ceil(turns - 1e-9); index++) {
      const radius = firstTurnDiameter / 2 + index * pitch * along - layer * layers.gap * up;
      const height = baseHeight + index * pitch * up + layer * layers.gap * along;
      const ring = choose({ ring: { radius, height }, index });
      if (ring !== undefined) chosen.push(ring);
    }
  }
  return chosen;
}
