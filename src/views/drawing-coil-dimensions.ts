/** Dimensions of the coil itself: diameters in place, heights to the right, notes to the left. */

import { type KeyRecord, labelOf } from "../catalogue/keys.ts";
import type { Coil, Conductor, Primary, TopLoad } from "../description/coil.ts";
import type { Provenances } from "../description/provenance.ts";
import { topLoadKind, topLoads } from "../parts/index.ts";
import type { Dimension, PlanePoint } from "./drawing.ts";
import { primaryAt, windingOf } from "./drawing-coil-shapes.ts";
import { dimensionOf } from "./drawing-dimension.ts";

const right: PlanePoint = { x: 1, z: 0 };
const up: PlanePoint = { x: 0, z: 1 };

type Draft = Parameters<typeof dimensionOf>[0];

/** A diameter measured across the axis at height `z`, pulled at its right end. */
const across = (draft: Omit<Draft, "from" | "to" | "prefix">, z: number): Draft => ({
  prefix: "Ø",
  from: { x: -draft.value / 2, z },
  to: { x: draft.value / 2, z },
  grip: { at: { x: draft.value / 2, z }, direction: right, gain: 2 },
  ...draft,
});

/** A height above the ground plane, measured at `x`, pulled at its upper end. */
const heightAbove = (draft: Omit<Draft, "from" | "to" | "side">, x: number): Draft => ({
  side: "right",
  from: { x, z: 0 },
  to: { x, z: draft.value },
  grip: { at: { x, z: draft.value }, direction: up, gain: 1 },
  ...draft,
});

function topLoadDimensions(load: TopLoad, index: number): Draft[] {
  const name = index === 0 ? "top load" : `top load ${index + 1}`;
  const rank = 2 + index;
  if ("toroid" in load) {
    const path = `topload.${index}.toroid`;
    const { outerDiameter, tubeDiameter, height } = load.toroid;
    const x = (outerDiameter - tubeDiameter) / 2;
    const above: PlanePoint = { x: -x, z: height + tubeDiameter / 2 };
    return [
      {
        ...across(
          { path: `${path}.outerDiameter`, says: `${name}, outer diameter`, value: outerDiameter, side: "above" },
          height,
        ),
        rank: index,
      },
      {
        path: `${path}.tubeDiameter`,
        says: `${name}, tube diameter`,
        value: tubeDiameter,
        kind: "note",
        side: "left",
        prefix: "tube Ø",
        from: { x: -x - tubeDiameter / 2, z: height },
        grip: { at: above, direction: up, gain: 2 },
      },
      {
        ...heightAbove({ path: `${path}.height`, says: `${name}, height of its centre plane`, value: height }, x),
        rank,
      },
    ];
  }
  if ("sphere" in load) {
    const path = `topload.${index}.sphere`;
    const { diameter, height } = load.sphere;
    return [
      {
        ...across({ path: `${path}.diameter`, says: `${name}, diameter`, value: diameter, side: "above" }, height),
        rank: index,
      },
      { ...heightAbove({ path: `${path}.height`, says: `${name}, height of its centre`, value: height }, 0), rank },
    ];
  }
  if ("disc" in load) {
    const path = `topload.${index}.disc`;
    const { diameter, thickness, height } = load.disc;
    return [
      {
        ...across({ path: `${path}.diameter`, says: `${name}, diameter`, value: diameter, side: "above" }, height),
        rank: index,
      },
      {
        path: `${path}.thickness`,
        says: `${name}, thickness`,
        value: thickness,
        kind: "note",
        side: "left",
        suffix: "thick",
        from: { x: -diameter / 2, z: height },
        grip: { at: { x: 0, z: height + thickness / 2 }, direction: up, gain: 2 },
      },
      {
        ...heightAbove({ path: `${path}.height`, says: `${name}, height of its centre plane`, value: height }, 0),
        rank,
      },
    ];
  }
  if ("cylinder" in load) return cylinderDimensions(load.cylinder, { index, name, rank });
  return anyDimensions(load, { index, name, rank });
}

interface Named {
  readonly index: number;
  readonly name: string;
  readonly rank: number;
}

function cylinderDimensions(
  { diameter, length, edgeRadius, height }: Extract<TopLoad, { readonly cylinder: unknown }>["cylinder"],
  { index, name, rank }: Named,
): Draft[] {
  const path = `topload.${index}.cylinder`;
  return [
    {
      ...across({ path: `${path}.diameter`, says: `${name}, diameter`, value: diameter, side: "above" }, height),
      rank: index,
    },
    {
      path: `${path}.length`,
      says: `${name}, length along the axis`,
      value: length,
      kind: "note",
      side: "left",
      suffix: "long",
      from: { x: -diameter / 2, z: height },
      grip: { at: { x: 0, z: height + length / 2 }, direction: up, gain: 2 },
    },
    {
      path: `${path}.edgeRadius`,
      says: `${name}, radius of its edges`,
      value: edgeRadius,
      kind: "note",
      side: "left",
      prefix: "edge R",
      from: { x: -diameter / 2, z: height + length / 2 - edgeRadius },
    },
    { ...heightAbove({ path: `${path}.height`, says: `${name}, height of its centre`, value: height }, 0), rank },
  ];
}

/** A shape without a drawing of its own: a diameter across it, its height, and a note for whatever else its keys say. */
function anyDimensions(load: TopLoad, { index, name, rank }: Named): Draft[] {
  const kind = topLoadKind(load);
  const keys: KeyRecord = topLoads[kind].keys;
  const size = (load as Record<string, Readonly<Record<string, number>>>)[kind]!;
  const height = size["height"] ?? 0;
  const wide = size["outerDiameter"] ?? size["diameter"] ?? 0;
  return Object.entries(size).map(([key, value]): Draft => {
    const draft = { path: `topload.${index}.${kind}.${key}`, says: `${name}, ${labelOf(key, keys[key]!)}`, value };
    if (key === "height") return { ...heightAbove(draft, 0), rank };
    if (key === "diameter" || key === "outerDiameter")
      return { ...across({ ...draft, side: "above" }, height), rank: index };
    return {
      ...draft,
      kind: "note",
      side: "left",
      prefix: `${labelOf(key, keys[key]!)} `,
      from: { x: -wide / 2, z: height },
    };
  });
}

function windingDimensions({ secondary }: Coil, provenances?: Provenances): Draft[] {
  const { pitch, radius, base, overall } = windingOf(secondary);
  const outer = radius + overall / 2;
  const bottom = base - pitch / 2;
  const top = bottom + secondary.length;
  const note = (): Pick<Draft, "kind" | "side" | "from"> => ({
    kind: "note",
    side: "left",
    from: { x: -outer, z: bottom + secondary.length * 0.58 },
  });
  const asGauge = provenances?.has("secondary.wire");
  const wire: Draft[] = asGauge
    ? [{ path: "secondary.wire", says: "secondary, wire", value: secondary.wire.bare, ...note() }]
    : [
        {
          path: "secondary.wire.bare",
          says: "secondary, bare wire diameter",
          value: secondary.wire.bare,
          prefix: "wire Ø",
          suffix: "bare",
          ...note(),
        },
        {
          path: "secondary.wire.overall",
          says: "secondary, wire diameter over its insulation",
          value: secondary.wire.overall,
          prefix: "wire Ø",
          suffix: "over all",
          ...note(),
        },
      ];
  return [
    {
      path: "secondary.turns",
      says: "secondary, turns",
      value: secondary.turns,
      quantity: "count",
      suffix: "turns",
      least: 1,
      ...note(),
    },
    ...wire,
    ...(secondary.coating
      ? [
          {
            path: "secondary.coating.thickness",
            says: "secondary, thickness of the coating",
            value: secondary.coating.thickness,
            suffix: secondary.coating.material,
            ...note(),
          },
        ]
      : []),
    across(
      {
        path: "secondary.former.outerDiameter",
        says: "former, outer diameter",
        value: secondary.former.outerDiameter,
        side: "between",
      },
      bottom + secondary.length * 0.36,
    ),
    {
      path: "secondary.length",
      says: "secondary, length of the winding",
      value: secondary.length,
      side: "right",
      rank: 1,
      from: { x: outer, z: bottom },
      to: { x: outer, z: top },
      // the last turn gives up half of what the pitch grows by
      grip: { at: { x: outer, z: top }, direction: up, gain: 1 / (1 - 0.5 / secondary.turns) },
    },
    {
      ...heightAbove(
        { path: "secondary.baseHeight", says: "secondary, height of its lowest turn", value: base },
        outer,
      ),
      rank: 1,
    },
  ];
}

function conductorDraft(conductor: Conductor, from: PlanePoint): Draft[] {
  const note = { kind: "note" as const, side: "left" as const, from };
  if ("tube" in conductor) {
    return [
      {
        path: "primary.conductor.tube",
        says: "primary, tube diameter",
        value: conductor.tube,
        prefix: "tube Ø",
        ...note,
      },
    ];
  }
  if ("wire" in conductor) {
    return [
      {
        path: "primary.conductor.wire",
        says: "primary, wire diameter",
        value: conductor.wire,
        prefix: "wire Ø",
        ...note,
      },
    ];
  }
  // a trace is written as one value, width × thickness, and is edited as one
  return [
    {
      path: "primary.conductor.trace",
      says: "primary, trace width and thickness",
      value: conductor.trace.width,
      prefix: "trace",
      ...note,
    },
  ];
}

function primaryDimensions(primary: Primary): Draft[] {
  const along: PlanePoint = { x: Math.cos(primary.angle), z: Math.sin(primary.angle) };
  const last = primaryAt(primary, Math.ceil(primary.turns - 1e-9) - 1);
  const outermost = { x: -last.x, z: last.z };
  const note = { kind: "note" as const, side: "left" as const, from: outermost };
  const tap = primaryAt(primary, primary.tap - 0.5);
  const second = primaryAt(primary, 1);
  return [
    {
      path: "primary.turns",
      says: "primary, turns",
      value: primary.turns,
      quantity: "count",
      suffix: "turns",
      least: 1,
      ...note,
    },
    {
      path: "primary.tap",
      says: "primary, turns in circuit",
      value: primary.tap,
      quantity: "ratio",
      prefix: "tap at",
      least: 0.5,
      most: primary.turns,
      ...note,
      grip: { at: tap, direction: along, gain: 1 / primary.pitch },
    },
    {
      path: "primary.pitch",
      says: "primary, pitch from turn to turn",
      value: primary.pitch,
      prefix: "pitch",
      ...note,
      grip: { at: { x: -second.x, z: second.z }, direction: { x: -along.x, z: along.z }, gain: 1 },
    },
    ...conductorDraft(primary.conductor, outermost),
    {
      path: "primary.angle",
      says: "primary, slope of the turns (0° flat, 90° upright)",
      value: primary.angle,
      quantity: "angle",
      prefix: "slope",
      ...note,
    },
    ...(primary.layers.count === 2
      ? [
          {
            path: "primary.layers.gap",
            says: "primary, gap between its layers",
            value: primary.layers.gap,
            prefix: "layer gap",
            ...note,
          },
        ]
      : []),
    across(
      {
        path: "primary.firstTurnDiameter",
        says: "primary, diameter of its first turn",
        value: primary.firstTurnDiameter,
        side: "below",
      },
      primary.baseHeight,
    ),
    {
      ...heightAbove(
        { path: "primary.baseHeight", says: "primary, height of its first turn", value: primary.baseHeight },
        last.x,
      ),
      rank: 0,
      grip: { at: { x: -primary.firstTurnDiameter / 2, z: primary.baseHeight }, direction: up, gain: 1 },
    },
  ];
}

function strikeRingDimensions({ strikeRing }: Primary): Draft[] {
  if (strikeRing === undefined) return [];
  const path = "primary.strikeRing";
  const from = { x: -strikeRing.diameter / 2, z: strikeRing.height };
  return [
    {
      ...across(
        { path: `${path}.diameter`, says: "strike ring, diameter", value: strikeRing.diameter, side: "below" },
        strikeRing.height,
      ),
      rank: 1,
    },
    {
      path: `${path}.height`,
      says: "strike ring, height",
      value: strikeRing.height,
      kind: "note",
      side: "left",
      prefix: "ring at",
      from,
      grip: { at: from, direction: up, gain: 1 },
    },
    {
      path: `${path}.tube`,
      says: "strike ring, tube diameter",
      value: strikeRing.tube,
      kind: "note",
      side: "left",
      prefix: "ring tube Ø",
      from,
    },
  ];
}

/** Every dimension of the coil that can be changed on the drawing. */
export function coilDimensions(coil: Coil, provenances?: Provenances): Dimension[] {
  return [
    ...coil.topload.flatMap(topLoadDimensions),
    ...windingDimensions(coil, provenances),
    ...(coil.primary ? [...primaryDimensions(coil.primary), ...strikeRingDimensions(coil.primary)] : []),
  ].map((draft) => dimensionOf(draft, provenances));
}
