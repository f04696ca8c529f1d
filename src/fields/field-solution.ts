/** The electric half of a coil in its room: patches, potential coefficients and the reduced capacitance, with any surrounding left out. */
import type { CoilGeometry, RoundConductor } from "../geometry/coil-geometry.ts";
import { type Conductors, type Electrostatics, patchesInOrder, solveElectrostatics } from "./electrostatics.ts";
import { type Condensed, condenseOffAxis } from "./off-axis.ts";
import type { Patch } from "./patch.ts";
import { type PotentialMatrix, potentialMatrix } from "./potential-matrix.ts";
import { patchesOf } from "./resolution.ts";

export interface FieldSystem {
  readonly windingPatch: Patch;
  readonly topPatches: readonly Patch[];
  readonly round: readonly { readonly conductor: RoundConductor; readonly patches: readonly Patch[] }[];
  readonly standing: readonly { readonly path: string; readonly condensed: Condensed }[];
  /** All patches on the axis in the order of the unknowns, and their coefficients. */
  readonly order: readonly Patch[];
  readonly potentials: PotentialMatrix;
}

/** Lays out the nodes and fills every coefficient; the solutions below only choose among them. */
export function fieldSystem(geometry: CoilGeometry, refine = 1): FieldSystem {
  const { winding, topload, round } = geometry;
  const patches = patchesOf({
    groups: [
      { role: "winding", stretches: [winding.stretch] },
      ...(topload ? [{ role: topload.role, stretches: topload.stretches }] : []),
      ...round.map(({ role, stretches }) => ({ role, stretches })),
    ],
    ground: true,
    refine,
  });
  const windingPatch = patches[0]![0]!;
  const topPatches = topload ? patches[1]! : [];
  const others = patches.slice(topload ? 2 : 1);
  const system = round.map((conductor, i) => ({ conductor, patches: others[i]! }));
  const order = patchesInOrder(conductorsOf({ windingPatch, topPatches, round: system }));
  const standing = geometry.standing.map(({ path, stretches, distance, earthed }) => {
    const bodyPatches = patchesOf({ groups: [{ role: "standing", stretches }], ground: false, refine })[0]!;
    return { path, condensed: condenseOffAxis(order, { patches: bodyPatches, distance, earthed }) };
  });
  return { windingPatch, topPatches, round: system, standing, order, potentials: potentialMatrix(order, true) };
}

type OnAxis = Pick<FieldSystem, "windingPatch" | "topPatches" | "round">;

function conductorsOf({ windingPatch, topPatches, round }: OnAxis): Conductors {
  return {
    winding: [windingPatch],
    top: topPatches,
    floating: round.filter(({ conductor }) => !conductor.earthed).map(({ patches }) => patches),
    earthed: round.filter(({ conductor }) => conductor.earthed).flatMap(({ patches }) => patches),
  };
}

/**
 * Solves the system, with the surroundings of the given paths left out.
 *
 * @param without  paths such as `site.wall`, `site.people.0`; a path stands for all below it (`site.people`)
 */
export function solveField(system: FieldSystem, without: readonly string[] = []): Electrostatics {
  const left = (path: string): boolean => without.some((gone) => path === gone || path.startsWith(`${gone}.`));
  const round = system.round.filter(({ conductor }) => !left(conductor.path));
  const off = system.standing.filter(({ path }) => !left(path)).map(({ condensed }) => condensed);
  const conductors = conductorsOf({ ...system, round });
  if (round.length === system.round.length)
    return solveElectrostatics({ conductors, potentials: system.potentials, off });
  const kept = new Set(patchesInOrder(conductors));
  const nodes: number[] = [];
  system.order.forEach((patch, p) => {
    if (kept.has(patch)) for (let i = 0; i < patch.count; i++) nodes.push(system.potentials.first[p]! + i);
  });
  return solveElectrostatics({ conductors, potentials: system.potentials, nodes, off });
}

/** Capacitance of conductors joined together and alone in free space [F]. */
export function isolatedCapacitance(patches: readonly Patch[]): number {
  const conductors = { winding: [], top: patches, floating: [], earthed: [] };
  return solveElectrostatics({ conductors, potentials: potentialMatrix(patches, false) }).capacitance[0]!;
}
