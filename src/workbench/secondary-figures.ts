/** Figures of the secondary and its top load. */
import { type CrossCheck, type Figure, figure } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import { inceptionField } from "../fields/air.ts";
import { sphereCapacitance, torusCapacitance } from "../fields/handbook/isolated-capacitance.ts";
import { medhurstCapacitance } from "../fields/handbook/medhurst-capacitance.ts";
import { medhurstResistanceRatio } from "../fields/handbook/medhurst-resistance.ts";
import { currentSheetInductance } from "../fields/handbook/nagaoka.ts";
import { rosaInductance } from "../fields/handbook/rosa.ts";
import { wheelerSolenoid, wheelerSolenoidHolds } from "../fields/handbook/wheeler.ts";
import { copperResistivity, skinDepth, skinResistanceRatio } from "../fields/wire-loss.ts";
import type { FieldStage } from "./field-stage.ts";

const windingKeys = [
  "secondary.former.outerDiameter",
  "secondary.wire.bare",
  "secondary.wire.overall",
  "secondary.turns",
  "secondary.length",
] as const;
const surroundingKeys = ["secondary.baseHeight", "topload", "primary", "site"] as const;

export function secondaryFigures(coil: Coil, stage: FieldStage): Figure[] {
  return [
    ...windingFigures(coil, stage),
    ...modeFigures(stage),
    ...topLoadFigures(coil, stage),
    ...stressFigures(stage),
  ];
}

function windingFigures(
  coil: Coil,
  { geometry: { winding }, modes, secondaryInductance, lossAt }: FieldStage,
): Figure[] {
  const mode = modes[0]!;
  const loss = lossAt(coil.site.air.temperature);
  const q = (2 * Math.PI * mode.frequency * mode.energyInductance) / loss.resistanceAc;
  const resistive = [...windingKeys, "site.air.temperature"];
  return [
    figure("secondary.wireLength", loss.wireLength, { from: windingKeys, source: "geometry" }),
    figure("secondary.inductance", secondaryInductance, {
      from: [...windingKeys, ...(coil.primary?.strikeRing?.closed ? ["primary.strikeRing"] : [])],
      source: "rosa-grover-169",
      crossChecks: inductanceChecks(stageWinding(winding)),
    }),
    figure("secondary.resistanceDc", loss.resistanceDc, { from: resistive, source: "iec-60028" }),
    figure("secondary.resistanceSkin", loss.resistanceSkin, {
      from: ["secondary.resistanceDc", "secondary.f1"],
      source: "skin-effect-bessel",
    }),
    figure("secondary.resistanceAc", loss.resistanceAc, {
      from: ["secondary.resistanceSkin", "secondary.f1", ...windingKeys],
      source: "proximity-orthogonality",
      crossChecks: resistanceChecks(coil, stageWinding(winding), mode.frequency, loss.resistanceDc),
      note: "±10 % for thin wire to ±30 % for close-wound wire thicker than two skin depths; insulation and former lose more",
    }),
    figure("secondary.qUnloaded", q, {
      from: ["secondary.f1", "secondary.energyInductance", "secondary.resistanceAc"],
      source: "quality-factor",
    }),
  ];
}

interface PlainWinding {
  readonly diameter: number;
  readonly length: number;
  readonly turns: number;
  readonly pitch: number;
  readonly wireDiameter: number;
}

const stageWinding = ({ radius, pitch, turns, wireDiameter }: FieldStage["geometry"]["winding"]): PlainWinding => ({
  diameter: 2 * radius,
  length: turns * pitch,
  turns,
  pitch,
  wireDiameter,
});

function inductanceChecks({ diameter, length, turns, pitch, wireDiameter }: PlainWinding): CrossCheck[] {
  return [
    {
      name: "current sheet with Nagaoka's coefficient",
      value: currentSheetInductance({ diameter, length, turns }),
      validity: "many turns of thin strip without gaps; round wire with gaps differs by some tenths of a per cent",
      valid: turns >= 50,
      source: "nagaoka-1909",
    },
    {
      name: "current sheet with Rosa's corrections for round wire",
      value: rosaInductance({ diameter, pitch, turns, wireDiameter, flux: "external" }),
      validity: "single layer at even pitch",
      valid: true,
      source: "rosa-1906",
    },
    {
      name: "Wheeler's solenoid formula",
      value: wheelerSolenoid({ diameter, length, turns }),
      validity: "within 1 % where the winding is longer than 0.4 diameters",
      valid: wheelerSolenoidHolds({ diameter, length }),
      source: "wheeler-1928",
    },
  ];
}

function resistanceChecks(coil: Coil, winding: PlainWinding, frequency: number, resistanceDc: number): CrossCheck[] {
  const fill = winding.wireDiameter / winding.pitch;
  if (!(fill >= 0.1 && fill <= 1)) return [];
  const depth = skinDepth({ frequency, resistivity: copperResistivity(coil.site.air.temperature) });
  const value =
    resistanceDc *
    skinResistanceRatio({ diameter: winding.wireDiameter, skinDepth: depth }) *
    medhurstResistanceRatio(winding);
  return [
    {
      name: "Medhurst's resistance ratio",
      value,
      validity:
        "wire thicker than about four skin depths, uniform current (a mode's current lowers it by about a third)",
      valid: winding.wireDiameter > 4 * depth,
      source: "medhurst-1947",
    },
  ];
}

function modeFigures({ modes, geometry: { winding }, isolated }: FieldStage): Figure[] {
  const from = [...windingKeys, ...surroundingKeys];
  const mode = modes[0]!;
  const omega = 2 * Math.PI * mode.frequency;
  const source = "distributed-resonator";
  const [, second, third] = modes;
  return [
    figure("secondary.f1", mode.frequency, {
      from,
      source,
      crossChecks: frequencyChecks(stageWinding(winding), isolated),
      note: "±1 % in clear space, ±2 % near walls or imperfect ground, from exact dimensions",
    }),
    ...(second ? [figure("secondary.f2", second.frequency, { from, source })] : []),
    ...(third ? [figure("secondary.f3", third.frequency, { from, source })] : []),
    figure("secondary.baseCurrentPerVolt", mode.baseCurrent, { from, source }),
    figure("secondary.energyInductance", mode.energyInductance, { from, source }),
    figure("secondary.energyCapacitance", mode.energyCapacitance, { from, source }),
    figure("secondary.terminalInductance", 1 / (omega * mode.baseCurrent), {
      from: ["secondary.f1", "secondary.baseCurrentPerVolt"],
      source,
    }),
    figure("secondary.terminalCapacitance", mode.baseCurrent / omega, {
      from: ["secondary.f1", "secondary.baseCurrentPerVolt"],
      source,
    }),
  ];
}

/** The handbook's way to f1: uniform-current inductance with Medhurst's capacitance and the top load's own, added. */
function frequencyChecks({ diameter, length, turns }: PlainWinding, isolated: number | undefined): CrossCheck[] {
  const slender = length / diameter;
  if (!(slender >= 0.1 && slender <= 50)) return [];
  const capacitance = medhurstCapacitance({ length, diameter }) + (isolated ?? 0);
  return [
    {
      name:
        isolated === undefined
          ? "Medhurst's self-capacitance"
          : "Medhurst's self-capacitance plus the top load's alone",
      value: 1 / (2 * Math.PI * Math.sqrt(currentSheetInductance({ diameter, length, turns }) * capacitance)),
      validity:
        "base on the ground plane, nothing near; about 5 % bare, 10 to 15 % with a top load, since winding and top load shade each other",
      valid: slender >= 0.5 && slender <= 5,
      source: "medhurst-1947",
    },
  ];
}

function topLoadFigures(coil: Coil, { electrostatics, isolated, peaks }: FieldStage): Figure[] {
  if (isolated === undefined) return [];
  const { free, capacitance } = electrostatics;
  const source = "boundary-elements";
  const figures = [
    figure("topload.capacitanceIsolated", isolated, { from: ["topload"], source, crossChecks: isolatedChecks(coil) }),
    figure("topload.capacitanceInPlace", capacitance[free * free - 1]!, {
      from: ["topload", ...windingKeys, "secondary.baseHeight", "primary", "site"],
      source,
    }),
  ];
  const peak = peaks.find(({ part }) => part === "topload");
  if (!peak) return figures;
  const inception = inceptionField({ curvatureRadius: peak.curvatureRadius, air: coil.site.air });
  return [
    ...figures,
    figure("topload.peakFieldPerVolt", peak.fieldPerVolt, {
      from: ["topload", ...windingKeys, "secondary.baseHeight", "primary", "site"],
      source,
    }),
    figure("topload.breakoutVoltage", inception.value / peak.fieldPerVolt, {
      from: ["topload.peakFieldPerVolt", "topload", "site.air"],
      source: "peek-1929",
      low: inception.low / peak.fieldPerVolt,
      high: inception.high / peak.fieldPerVolt,
      note: "of a clean smooth surface; a breakout point, a scratch or dust breaks out earlier",
    }),
  ];
}

function isolatedChecks({ topload }: Coil): CrossCheck[] {
  const only = topload.length === 1 ? topload[0]! : undefined;
  if (only && "toroid" in only) {
    return [
      {
        name: "torus in toroidal coordinates, exact",
        value: torusCapacitance(only.toroid),
        validity: "one torus alone",
        valid: true,
        source: "toroidal-harmonics",
      },
    ];
  }
  if (only && "sphere" in only) {
    return [
      {
        name: "sphere, exact",
        value: sphereCapacitance(only.sphere),
        validity: "one sphere alone",
        valid: true,
        source: "coulomb",
      },
    ];
  }
  return [];
}

function stressFigures({ modes, geometry: { winding } }: FieldStage): Figure[] {
  const { turnVoltage } = modes[0]!;
  let worst = 0;
  turnVoltage.forEach((voltage, j) => {
    if (voltage > turnVoltage[worst]!) worst = j;
  });
  const greatest = turnVoltage[worst]!;
  const source = "distributed-resonator";
  const from = [...windingKeys, ...surroundingKeys];
  return [
    figure("winding.peakFieldPerVolt", greatest / winding.pitch, { from, source }),
    figure("winding.peakFieldHeight", winding.firstHeight + worst * winding.pitch, { from, source }),
    figure("winding.turnVoltagePerVolt", greatest, {
      from: ["winding.peakFieldPerVolt", "secondary.length", "secondary.turns"],
      source,
    }),
  ];
}
