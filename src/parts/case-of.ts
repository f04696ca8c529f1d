/** From a list of parts to the map with one key that the file writes, `{ toroid: { … } }`, and back to the part. */
import type { Key, KeyRecord, RecordKey, RecordValue, Value } from "../catalogue/keys.ts";
import * as conductors from "./conductors/index.ts";
import type { ConductorPart, ShapeProblem, TopLoadPart, TurnPlace } from "./define.ts";
import type { Outline } from "./shape.ts";
import * as topLoads from "./toploads/index.ts";

/** `{ toroid: Toroid } | { sphere: Sphere } | …`: one of the listed top loads. */
export type TopLoadCase = {
  [P in keyof typeof topLoads]: { readonly [Q in P]: RecordValue<(typeof topLoads)[P]["keys"]> };
}[keyof typeof topLoads];

/** `{ tube: 8 mm } | { wire: … } | { trace: … }`: one of the listed conductors. */
export type ConductorCase = {
  [P in keyof typeof conductors]: { readonly [Q in P]: Value<(typeof conductors)[P]["key"]> };
}[keyof typeof conductors];

/** The keys of every listed top load, as cases of a one-of. */
export const topLoadCases = Object.fromEntries(
  Object.values(topLoads).map((part) => [
    part.kind,
    { kind: "record", says: part.says, keys: part.keys } satisfies RecordKey,
  ]),
) as {
  readonly [P in keyof typeof topLoads]: {
    readonly kind: "record";
    readonly says: string;
    readonly keys: (typeof topLoads)[P]["keys"];
  };
};

/** The key of every listed conductor, as cases of a one-of. */
export const conductorCases = Object.fromEntries(
  Object.values(conductors).map((part) => [part.kind, part.key]),
) as unknown as {
  readonly [P in keyof typeof conductors]: (typeof conductors)[P]["key"];
};

const topLoadsByKind = { ...topLoads };
const conductorsByKind = { ...conductors };

/** Meridian outline of a top load: closed, or from the axis to the axis [m]. */
export function topLoadOutline(load: TopLoadCase): Outline {
  const { part, size } = topLoadPart(load);
  return part.outline(size as never);
}

/** What is wrong with the shape of a top load in itself, or undefined. */
export function topLoadProblem(load: TopLoadCase): ShapeProblem | undefined {
  const { part, size } = topLoadPart(load);
  return part.impossible?.(size as never);
}

/** Which kind a top load is, e.g. `toroid`. */
export function topLoadKind(load: TopLoadCase): keyof typeof topLoads {
  return Object.keys(load)[0] as keyof typeof topLoads;
}

/** Meridian outline of one turn of a conductor: closed, or a thin sheet [m]. */
export function conductorOutline(conductor: ConductorCase, at: TurnPlace): Outline {
  const { part, size } = conductorPart(conductor);
  return part.outline(size as never, at);
}

/** Widths of a conductor's section: along the row of turns and across it [m]. */
export function conductorExtent(conductor: ConductorCase): ReturnType<ConductorPart<Key>["extent"]> {
  const { part, size } = conductorPart(conductor);
  return part.extent(size as never);
}

// The key that a case carries names the part whose size its value is; the type system cannot follow that pairing.
function topLoadPart(load: TopLoadCase): { part: TopLoadPart<KeyRecord>; size: unknown } {
  const kind = topLoadKind(load);
  return {
    part: topLoadsByKind[kind] as unknown as TopLoadPart<KeyRecord>,
    size: (load as Record<string, unknown>)[kind],
  };
}

function conductorPart(conductor: ConductorCase): { part: ConductorPart<Key>; size: unknown } {
  const kind = Object.keys(conductor)[0] as keyof typeof conductors;
  return {
    part: conductorsByKind[kind] as unknown as ConductorPart<Key>,
    size: (conductor as Record<string, unknown>)[kind],
  };
}
