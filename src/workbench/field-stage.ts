/** The slow half of a solve: everything that depends on shape and surroundings alone. Results are kept by what they depend on. */
import type { Coil } from "../description/coil.ts";
import type { Electrostatics } from "../fields/electrostatics.ts";
import { type FieldSystem, fieldSystem, isolatedCapacitance, solveField } from "../fields/field-solution.ts";
import { inductanceOfColumn, windingMatrixColumn, withShortedTurn } from "../fields/inductance.ts";
import { equivalentRadiusOfRound } from "../fields/rings-self.ts";
import { copperResistivity } from "../fields/wire-loss.ts";
import { type WindingLoss, windingLoss } from "../fields/wire-loss-winding.ts";
import { type CoilGeometry, coilGeometry } from "../geometry/coil-geometry.ts";
import { type PrimaryAtTap, primaryLink, shortedTurn } from "../resonator/primary-link.ts";
import {
  firstFrequency,
  type WindingMagnetics,
  type WindingMode,
  windingMagnetics,
  windingModes,
} from "../resonator/winding-modes.ts";
import type { Farad, Henry, Hertz, Kelvin } from "../units/si.ts";
import type { PeakField } from "./contract.ts";
import { peakFields } from "./peak-fields.ts";

export interface FieldStage {
  readonly geometry: CoilGeometry;
  readonly system: FieldSystem;
  readonly electrostatics: Electrostatics;
  readonly magnetics: WindingMagnetics;
  /** Twelve where the winding has that many: the poles need the higher ones too. */
  readonly modes: readonly WindingMode[];
  readonly peaks: readonly PeakField[];
  readonly secondaryInductance: Henry;
  readonly isolated: Farad | undefined;
  /** The primary at any tap, its mutuals at uniform current and in each mode; undefined without a primary. */
  readonly primaryAt: ((tap: number) => PrimaryAtTap) | undefined;
  /** f1 with the surroundings of a path left out. */
  f1Without(path: string): Hertz;
  /** f1 with a capacitance added at the top. */
  f1Loaded(added: Farad): Hertz;
  /** Resistances of the winding in mode 1 at a temperature of its copper. */
  lossAt(temperature: Kelvin): WindingLoss;
}

const modesCounted = 12;
/** Stages kept: enough to go to and fro in an undo history, or between a few files, without solving again. */
const kept = 6;
const stages = new Map<string, FieldStage>();

/** The field stage of a coil, from memory where nothing that it depends on has changed. */
export function fieldStage(coil: Coil): FieldStage {
  const key = shapeOf(coil);
  const known = stages.get(key);
  const stage = known ?? solveStage(coil);
  stages.delete(key);
  stages.set(key, stage);
  if (stages.size > kept) stages.delete(stages.keys().next().value!);
  return stage;
}

/** What the fields depend on: no tap, no bank, no bridge, no air. */
function shapeOf({ secondary, topload, primary, site }: Coil): string {
  const { coating: _coating, ...winding } = secondary;
  const { wall, ceiling, people, objects } = site;
  const shape = primary && { ...primary, tap: 0 };
  return JSON.stringify([winding, topload, shape, wall, ceiling, people, objects]);
}

function solveStage(coil: Coil): FieldStage {
  const geometry = coilGeometry(coil);
  const { winding } = geometry;
  const system = fieldSystem(geometry);
  const electrostatics = solveField(system);
  const column = windingMatrixColumn({
    ...winding,
    equivalentRadius: equivalentRadiusOfRound({ diameter: winding.wireDiameter, flux: "external" }),
  });
  const shorted = shortedTurn(coil.primary?.strikeRing, winding);
  const hasTop = geometry.topload !== undefined;
  const magnetics = windingMagnetics({ patch: system.windingPatch, column, hasTop, shorted });
  const modes = windingModes({ magnetics, electrostatics, count: modesCounted });
  // Uniform current first, then each mode per ampere at its base.
  const profiles = [
    new Float64Array(winding.turns).fill(1),
    ...modes.map(({ turnCurrent, baseCurrent }) => turnCurrent.map((current) => current / baseCurrent)),
  ];
  const whole = inductanceOfColumn(column);
  const toShorted = shorted?.toTurns.reduce((sum, m) => sum + m, 0) ?? 0;
  const withoutBodies = remembered((path: string) => firstFrequency(magnetics, solveField(system, [path]).capacitance));
  // A list of one is the same as its only entry: solved once.
  const only = (path: string): string => {
    const below = geometry.standing.filter((body) => body.path.startsWith(`${path}.`));
    return below.length === 1 ? below[0]!.path : path;
  };
  const without = (path: string): Hertz => withoutBodies(only(path));
  const loaded = remembered((added: Farad) => {
    const { free } = electrostatics;
    const capacitance = Float64Array.from(electrostatics.capacitance);
    capacitance[free * free - 1]! += added;
    return firstFrequency(magnetics, capacitance);
  });
  const lossAt = remembered((temperature: Kelvin) =>
    windingLoss({
      winding,
      wireDiameter: winding.wireDiameter,
      frequency: modes[0]!.frequency,
      resistivity: copperResistivity(temperature),
      current: profiles[1]!,
    }),
  );
  return {
    geometry,
    system,
    electrostatics,
    magnetics,
    modes,
    secondaryInductance: shorted
      ? withShortedTurn({
          inductance: whole,
          toFirst: toShorted,
          toSecond: toShorted,
          ringInductance: shorted.inductance,
        })
      : whole,
    isolated: hasTop ? isolatedCapacitance(system.topPatches) : undefined,
    peaks: peakFields({ system, charges: modes[0]!.charges }),
    primaryAt: coil.primary && primaryLink({ primary: coil.primary, winding, shorted, profiles }),
    f1Without: without,
    f1Loaded: loaded,
    lossAt,
  };
}

/** A function that keeps its answers; a stage is asked for few of each. */
function remembered<K, V>(answer: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const found = known.get(key) ?? answer(key);
    known.set(key, found);
    return found;
  };
}
