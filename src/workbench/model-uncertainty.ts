/** What the model itself may be off by, from exact dimensions: half-widths that hold 95 %, as a part of each figure. */

import type { Figures } from "../catalogue/figure.ts";
import type { Coil } from "../description/coil.ts";
import type { Ratio } from "../units/si.ts";

/** Skin depths in the bare diameter up to which wire counts as thin, and from which it counts as thick. */
const [thin, thick] = [2, 5];
/** Shift of f1 by the surroundings above which they count as near. */
const nearRoom = 0.02;

/**
 * @returns by figure id; a figure that is not in the table has no uncertainty of its own beyond what it is computed from
 * @source model-uncertainty
 */
export function modelUncertainty(coil: Coil, figures: Figures): ReadonlyMap<string, Ratio> {
  const f1 = figures.get("secondary.f1")?.value ?? 0;
  const room = ["detuning.wall", "detuning.ceiling", "detuning.objects", "detuning.person"]
    .map((id) => Math.abs(figures.get(id)?.value ?? 0))
    .reduce((sum, shift) => sum + shift, 0);
  const frequency = f1 > 0 && room / f1 > nearRoom ? 0.02 : 0.01;
  // The load that a streamer puts on the top is known to a factor of about two, and the aim moves with the load.
  const aim = figures.has("tuning.loadedF1") ? 0.6 * (1 - (figures.get("tuning.aimRatio")?.value ?? 1)) : 0;
  const tune = Math.hypot(frequency, 0.01, aim);
  const loss = lossUncertainty(coil, figures);
  return new Map<string, Ratio>([
    ["secondary.inductance", 0.003],
    ["secondary.resistanceDc", 0.01],
    ["secondary.resistanceSkin", 0.03],
    ["secondary.resistanceAc", loss],
    ["secondary.qUnloaded", loss],
    ["secondary.f1", frequency],
    ["secondary.f2", 1.5 * frequency],
    ["secondary.f3", 2 * frequency],
    ["secondary.energyInductance", frequency],
    ["secondary.energyCapacitance", 2 * frequency],
    ["secondary.terminalInductance", frequency],
    ["secondary.terminalCapacitance", 2 * frequency],
    ["secondary.baseCurrentPerVolt", frequency],
    ["topload.capacitanceIsolated", 0.005],
    ["topload.capacitanceInPlace", 2 * frequency],
    ["topload.peakFieldPerVolt", 0.02],
    ["winding.peakFieldPerVolt", 0.03],
    ["winding.turnVoltagePerVolt", 0.03],
    ["primary.inductance", 0.02],
    ["primary.resistanceAc", 0.15],
    ["tank.inductance", 0.02],
    ["tank.frequency", 0.01],
    ["coupling.mutual", 0.01],
    ["coupling.k", 0.015],
    ["coupling.kMode1", 0.02],
    ["poles.lower", frequency],
    ["poles.upper", frequency],
    ["tuning.ratio", Math.hypot(frequency, 0.01)],
    ["tuning.aimRatio", aim],
    ["tuning.loadedF1", Math.hypot(frequency, aim)],
    ["tuning.tapForMatch", 1.2 * tune],
    ["tuning.capacitorForMatch", 2 * tune],
    ["detuning.person", 0.2],
    ["detuning.wall", 0.2],
    ["detuning.ceiling", 0.2],
    ["detuning.objects", 0.2],
    ["detuning.strikeRing", 0.1],
  ]);
}

/** From 10 % for thin wire to 30 % for thick wire wound close. */
function lossUncertainty({ secondary: { wire, length, turns } }: Coil, figures: Figures): Ratio {
  const resistance = figures.get("secondary.resistanceDc")?.value;
  const skin = figures.get("secondary.resistanceSkin")?.value;
  if (resistance === undefined || skin === undefined) return 0.3;
  const f1 = figures.get("secondary.f1")?.value ?? 0;
  const depth = f1 > 0 ? Math.sqrt(1.7241e-8 / (Math.PI * f1 * 4e-7 * Math.PI)) : wire.bare;
  const thickness = Math.min(1, Math.max(0, (wire.bare / depth - thin) / (thick - thin)));
  const closeness = Math.min(1, Math.max(0, ((turns * wire.bare) / length - 0.5) / 0.4));
  return 0.1 + 0.2 * Math.max(thickness * closeness, 0);
}
