/** Figures of primary, tank, coupling and poles. */
import { type CrossCheck, type Figure, figure } from "../catalogue/figure.ts";
import type { Coil, Primary, Tank } from "../description/coil.ts";
import { coupledPoles } from "../fields/handbook/coupled-poles.ts";
import {
  wheelerSolenoid,
  wheelerSolenoidHolds,
  wheelerSpiral,
  wheelerSpiralHolds,
} from "../fields/handbook/wheeler.ts";
import { copperResistivity } from "../fields/wire-loss.ts";
import { ringsLoss } from "../fields/wire-loss-rings.ts";
import { traceLoss } from "../fields/wire-loss-trace.ts";
import { rings } from "../parts/index.ts";
import { systemPoles } from "../resonator/coupled-system.ts";
import type { PrimaryAtTap } from "../resonator/primary-link.ts";
import type { Farad, Henry, Hertz } from "../units/si.ts";
import type { FieldStage } from "./field-stage.ts";

/** Tank and secondary at one tap and one bank: what the tuning searches through. */
export interface CoupledPoint {
  readonly tankInductance: Henry;
  readonly tankFrequency: Hertz;
  readonly lower: Hertz;
  readonly upper: Hertz;
}

export const bankCapacitance = ({ bank: { each, series, parallel } }: Tank): Farad => (each * parallel) / series;

/** Tank and secondary at a tap with a bank. */
export function coupledPoint({
  stage,
  at,
  tank,
  capacitance,
}: {
  stage: FieldStage;
  at: PrimaryAtTap;
  tank: Tank;
  capacitance: Farad;
}): CoupledPoint {
  const tankInductance = at.inductance + tank.leads.inductance;
  const modes = stage.modes.map(({ frequency, energyInductance }, n) => ({
    frequency,
    inductance: energyInductance,
    mutual: at.mutuals[n + 1]!,
  }));
  return {
    tankInductance,
    tankFrequency: 1 / (2 * Math.PI * Math.sqrt(tankInductance * capacitance)),
    ...systemPoles({ tankInductance, tankCapacitance: capacitance, modes }),
  };
}

const primaryKeys = [
  "primary.angle",
  "primary.tap",
  "primary.firstTurnDiameter",
  "primary.pitch",
  "primary.conductor",
  "primary.layers",
] as const;

export function primaryFigures(primary: Primary, stage: FieldStage): Figure[] {
  const at = stage.primaryAt!(primary.tap);
  const mode = stage.modes[0]!;
  const from = [...primaryKeys, ...(primary.strikeRing?.closed ? ["primary.strikeRing"] : [])];
  const [mutual, inMode] = [at.mutuals[0]!, at.mutuals[1]!];
  return [
    figure("primary.inductance", at.inductance, {
      from,
      source: "rosa-grover-169",
      crossChecks: inductanceChecks(primary),
    }),
    figure("coupling.mutual", mutual, {
      from: [
        ...from,
        "primary.baseHeight",
        "secondary.former.outerDiameter",
        "secondary.turns",
        "secondary.length",
        "secondary.baseHeight",
      ],
      source: "rosa-grover-169",
    }),
    figure("coupling.k", mutual / Math.sqrt(at.inductance * stage.secondaryInductance), {
      from: ["coupling.mutual", "primary.inductance", "secondary.inductance"],
      source: "coupled-circuits",
    }),
    figure("coupling.kMode1", inMode / Math.sqrt(at.inductance * mode.energyInductance), {
      from: ["coupling.mutual", "primary.inductance", "secondary.energyInductance"],
      source: "distributed-resonator",
    }),
  ];
}

export function tankFigures({
  coil,
  primary,
  tank,
  stage,
}: {
  coil: Coil;
  primary: Primary;
  tank: Tank;
  stage: FieldStage;
}): Figure[] {
  const capacitance = bankCapacitance(tank);
  const at = stage.primaryAt!(primary.tap);
  const point = coupledPoint({ stage, at, tank, capacitance });
  const operating = point.lower;
  return [
    figure("primary.resistanceAc", primaryResistance(coil, primary, operating), {
      from: [...primaryKeys, "poles.lower", "site.air.temperature"],
      source: "skin-effect-bessel",
      note: "at the lower pole; a tube counts as solid, joints and leads are not in it; ±10 %, wider where turns are close",
    }),
    figure("tank.capacitance", capacitance, {
      from: ["tank.bank.each", "tank.bank.series", "tank.bank.parallel"],
      source: "coil-file",
    }),
    figure("tank.inductance", point.tankInductance, {
      from: ["primary.inductance", "tank.leads.inductance"],
      source: "coil-file",
    }),
    figure("tank.frequency", point.tankFrequency, {
      from: ["tank.capacitance", "tank.inductance"],
      source: "lc-resonance",
    }),
    ...(["lower", "upper"] as const).map((which) =>
      figure(`poles.${which}`, point[which], {
        from: ["tank.frequency", "secondary.f1", "coupling.kMode1", "tank.inductance"],
        source: "coupled-circuits",
        crossChecks: [twoLoopCheck({ which, stage, point, inMode: at.mutuals[1]! })],
      }),
    ),
  ];
}

function twoLoopCheck({
  which,
  stage,
  point,
  inMode,
}: {
  which: "lower" | "upper";
  stage: FieldStage;
  point: CoupledPoint;
  inMode: Henry;
}): CrossCheck {
  const { frequency, energyInductance } = stage.modes[0]!;
  const coupling = inMode / Math.sqrt(point.tankInductance * energyInductance);
  return {
    name: "two coupled loops, tank and mode 1 alone",
    value: coupledPoles({ first: point.tankFrequency, second: frequency, coupling })[which],
    validity: "coupling below 0.2; above, the higher modes shift the poles by more than 0.1 %",
    valid: coupling < 0.2,
    source: "coupled-circuits",
  };
}

function inductanceChecks({ angle, tap, firstTurnDiameter, pitch, layers }: Primary): CrossCheck[] {
  if (layers.count !== 1 || tap < 2) return [];
  if (angle > 1.55) {
    const size = { diameter: firstTurnDiameter, length: tap * pitch, turns: tap };
    return [
      {
        name: "Wheeler's solenoid formula",
        value: wheelerSolenoid(size),
        validity:
          "within 1 % where the winding is longer than 0.4 diameters; a current sheet, few thick turns differ by several per cent",
        valid: wheelerSolenoidHolds(size),
        source: "wheeler-1928",
      },
    ];
  }
  if (angle > 0.02) return [];
  const depth = tap * pitch;
  const size = { meanRadius: firstTurnDiameter / 2 + ((tap - 1) * pitch) / 2, depth, turns: tap };
  return [
    {
      name: "Wheeler's flat spiral formula",
      value: wheelerSpiral(size),
      validity: "within 5 % where the depth is over a fifth of the mean radius",
      valid: wheelerSpiralHolds(size),
      source: "wheeler-1928",
    },
  ];
}

/** A trace across the axis is cut into strips; any other conductor, and a trace on a cone, counts as round with the same perimeter. */
function primaryResistance({ site }: Coil, primary: Primary, frequency: Hertz): number {
  const resistivity = copperResistivity(site.air.temperature);
  const { conductor, layers, angle } = primary;
  const all = rings(primary);
  const parallel = layers.count === 2 && layers.connected === "parallel";
  const counted = parallel ? all.slice(0, all.length / 2) : all;
  const share = parallel ? 0.5 : 1;
  if (!("trace" in conductor)) {
    const diameter = "tube" in conductor ? conductor.tube : conductor.wire;
    return share * ringsLoss({ rings: counted, diameter, frequency, resistivity }).resistanceAc;
  }
  const { width, thickness } = conductor.trace;
  const plane = Math.abs(angle) < 1e-9 && thickness <= width / 10;
  if (plane) return share * traceLoss({ rings: counted, width, thickness, frequency, resistivity }).resistanceAc;
  const diameter = Math.min((2 * (width + thickness)) / Math.PI, Math.max(primary.pitch, thickness));
  return share * ringsLoss({ rings: counted, diameter, frequency, resistivity }).resistanceAc;
}
