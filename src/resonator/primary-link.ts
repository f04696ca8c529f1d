/** The primary at a tap: its inductance and what links it to the secondary in each mode. */
import type { Primary, StrikeRing } from "../description/coil.ts";
import { ringSetInductance, ringSetMutual } from "../fields/inductance.ts";
import { ringMutual } from "../fields/rings.ts";
import { equivalentRadius, equivalentRadiusOfRound, selfOfRing } from "../fields/rings-self.ts";
import type { WindingGeometry } from "../geometry/coil-geometry.ts";
import { type Ring, rings } from "../parts/index.ts";
import type { Henry } from "../units/si.ts";

/** A closed ring beside primary and secondary: a shorted turn. */
export interface ShortedTurn {
  readonly ring: Ring;
  readonly inductance: Henry;
  /** To each turn of the secondary, base first [H]. */
  readonly toTurns: Float64Array;
}

export interface PrimaryAtTap {
  readonly inductance: Henry;
  /** To the secondary with each current profile that `primaryLink` was given, in their order [H]. */
  readonly mutuals: Float64Array;
}

/** The strike ring as a shorted turn, where it is a full circle. */
export function shortedTurn(strikeRing: StrikeRing | undefined, winding: WindingGeometry): ShortedTurn | undefined {
  if (!strikeRing?.closed) return undefined;
  const ring = { radius: strikeRing.diameter / 2, height: strikeRing.height, share: 1 };
  const tube = equivalentRadiusOfRound({ diameter: strikeRing.tube, flux: "external" });
  return {
    ring,
    inductance: selfOfRing({ radius: ring.radius, equivalentRadius: Math.min(tube, ring.radius / 2) }),
    toTurns: mutualToTurns(ring, winding),
  };
}

/**
 * Prepares a primary so that any tap is cheap: what each of its turns links with the secondary is computed once.
 *
 * @param profiles  current of each turn of the secondary, base first, for each way of carrying it (uniform, modes)
 * @returns a function from the tap (turns in circuit of each layer, > 0; beyond the turns wound it goes on along the same line) to the
 *          primary at that tap, the shorted turn's effect included
 * @source rosa-grover-169; a shorted turn takes the product of its two mutuals, over its inductance, from every inductance that it links
 */
export function primaryLink({
  primary,
  winding,
  shorted,
  profiles,
}: {
  primary: Primary;
  winding: WindingGeometry;
  shorted: ShortedTurn | undefined;
  profiles: readonly Float64Array[];
}): (tap: number) => PrimaryAtTap {
  const radius = equivalentRadius(primary.conductor);
  const selfOf = (ring: Ring): Henry => selfOfRing({ ...ring, equivalentRadius: Math.min(radius, ring.radius / 2) });
  const shortedLinks = shorted && weigh(shorted.toTurns, profiles);
  const links = new Map<string, Float64Array>();
  const linksOf = (ring: Ring): Float64Array => {
    const key = `${ring.radius} ${ring.height}`;
    const known = links.get(key) ?? weigh(mutualToTurns(ring, winding), profiles);
    links.set(key, known);
    return known;
  };
  return remembered((tap) => {
    const layers = layersAt(primary, tap);
    const shares = currentShares(layers, primary.layers.connected, selfOf);
    let inductance = 0;
    let toShorted = 0;
    layers.forEach((layer, a) => {
      inductance += shares[a]! ** 2 * ringSetInductance(layer, selfOf);
      for (let b = 0; b < a; b++) inductance += 2 * shares[a]! * shares[b]! * ringSetMutual(layer, layers[b]!);
      if (shorted) toShorted += shares[a]! * ringSetMutual(layer, [shorted.ring]);
    });
    if (shorted) inductance -= toShorted ** 2 / shorted.inductance;
    const linked = (): Float64Array => {
      const mutuals = new Float64Array(profiles.length);
      layers.forEach((layer, a) => {
        for (const ring of layer) addScaled(mutuals, linksOf(ring), shares[a]! * ring.share);
      });
      if (shorted && shortedLinks) addScaled(mutuals, shortedLinks, -toShorted / shorted.inductance);
      return mutuals;
    };
    // A search for a tap asks for the inductance alone, far beyond the turns wound.
    let mutuals: Float64Array | undefined;
    return {
      inductance,
      get mutuals() {
        mutuals ??= linked();
        return mutuals;
      },
    };
  });
}

/** Taps kept: those of a plot and of a few searches. */
const tapsKept = 400;

function remembered(at: (tap: number) => PrimaryAtTap): (tap: number) => PrimaryAtTap {
  const known = new Map<number, PrimaryAtTap>();
  return (tap) => {
    const found = known.get(tap) ?? at(tap);
    if (known.size >= tapsKept) known.clear();
    known.set(tap, found);
    return found;
  };
}

function layersAt(primary: Primary, tap: number): (readonly Ring[])[] {
  const all = rings({ ...primary, turns: Math.max(primary.turns, tap), tap });
  const each = all.length / primary.layers.count;
  return Array.from({ length: primary.layers.count }, (_, layer) => all.slice(layer * each, (layer + 1) * each));
}

/** Current of each layer per ampere at the terminals: all of it in series; in parallel as their inductances divide it. */
function currentShares(
  layers: readonly (readonly Ring[])[],
  connected: "series" | "parallel",
  selfOf: (ring: Ring) => Henry,
): number[] {
  const [first, second] = layers;
  if (connected === "series" || !first || !second) return layers.map(() => 1);
  const mutual = ringSetMutual(first, second);
  const a = ringSetInductance(second, selfOf) - mutual;
  const b = ringSetInductance(first, selfOf) - mutual;
  return [a / (a + b), b / (a + b)];
}

function mutualToTurns(ring: Ring, { radius, pitch, turns, firstHeight }: WindingGeometry): Float64Array {
  const out = new Float64Array(turns);
  for (let j = 0; j < turns; j++) out[j] = ringMutual(ring.radius, radius, firstHeight + j * pitch - ring.height);
  return out;
}

function weigh(toTurns: Float64Array, profiles: readonly Float64Array[]): Float64Array {
  return Float64Array.from(profiles, (profile) => {
    let sum = 0;
    for (let j = 0; j < profile.length; j++) sum += profile[j]! * toTurns[j]!;
    return sum;
  });
}

function addScaled(into: Float64Array, values: Float64Array, scale: number): void {
  for (let i = 0; i < into.length; i++) into[i]! += scale * values[i]!;
}
