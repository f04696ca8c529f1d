/** Ground lead, earth strap and current transformer: what they do to a reading, for this coil. */
import type { Hertz, Volt } from "../units/si.ts";
import type { CurrentTransformerAdvice, EarthAdvice, GroundLeadAdvice, Radiating } from "./bringup-contract.ts";
import { fieldAt } from "./bringup-pickup.ts";
import type { BurstStudy } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";

/** What no file says of edges, leads and soil. Common practice, no source. */
const usual = {
  /** Of the bridge's output. */
  edgeTime: 100e-9,
  probeCapacitance: 15e-12,
  /** Lead and tip as a loop: inductance of a metre, and how far the lead stands off. */
  leadPerMetre: 1e-6,
  leadHeight: 0.04,
  leads: [0.15, 0.03],
  /** Of the instrument from the axis. */
  distance: 0.5,
  /** Of a metre of wide strap. */
  strapPerMetre: 0.8e-6,
  rod: { length: 1.5, diameter: 16e-3 },
  resistivity: 100,
};

/** @param bus  full bus [V]: the bridge's output swings by all of it */
export function groundLeadAdvice(solution: Solution, full: Radiating, bus: Volt): GroundLeadAdvice | undefined {
  if (!solution.coil.bridge || !(bus > 0)) return undefined;
  const { edgeTime, probeCapacitance, leadPerMetre, leadHeight, distance } = usual;
  const edge = bus / edgeTime;
  const field = fieldAt(solution, full, distance);
  return {
    edge,
    edgeTime,
    edgeCurrent: edge * probeCapacitance,
    leads: usual.leads.map((length) => {
      const inductance = leadPerMetre * length;
      return {
        length,
        inductance,
        ringsAt: 1 / (2 * Math.PI * Math.sqrt(inductance * probeCapacitance)),
        induced: 2 * Math.PI * full.frequency * field * length * leadHeight,
      };
    }),
    says: [
      "An edge drives its current through every capacitance to the probe and back through the ground lead. Lead and tip then ring: that ringing is in the lead and not in the bridge. Halve the lead; what changes is not the coil's.",
      "A loop of lead beside the primary is a pickup loop. Clip tip and ground to the same point: what is still on the screen is what the lead picks up.",
      "A differential probe lets through a part of what both its tips do together, more of it the steeper the edge. Join both tips to the moving point: what is still on the screen is the probe's.",
      "One ground clip in the whole set-up, or none. A second one closes a loop through the instrument.",
    ],
  };
}

/**
 * Where the burst's current goes into the earth, and what it lifts there.
 *
 * Rod: R = ρ/(2πl)·(ln(8l/d) − 1), from memory; the potential falls as ρ·I/(2πx) farther off than the rod is long.
 */
export function earthAdviceOf(solution: Solution, { topVoltage, frequency }: Radiating): EarthAdvice | undefined {
  const perVolt = solution.figures.get("secondary.baseCurrentPerVolt")?.value;
  if (perVolt === undefined || !(topVoltage > 0)) return undefined;
  const baseCurrent = perVolt * topVoltage;
  const { length, diameter } = usual.rod;
  const resistance = (usual.resistivity / (2 * Math.PI * length)) * (Math.log((8 * length) / diameter) - 1);
  return {
    baseCurrent,
    frequency,
    strapVoltage: 2 * Math.PI * frequency * usual.strapPerMetre * baseCurrent,
    rod: {
      length,
      resistance,
      resistivity: usual.resistivity,
      voltage: resistance * baseCurrent,
      apart: usual.resistivity / (2 * Math.PI * 0.1 * resistance),
    },
    says: [
      "The rod belongs as near below the coil as the ground allows: the strap lifts the base by this voltage for each metre of its length, whatever the rod is.",
      "Keep it this far from another rod, a water pipe or the building's own electrode; nearer, they share its voltage.",
      "The soil was taken as loam. Dry sand or rock has ten times its resistance, and the rod then lifts the base ten times as far: measure the rod, or join several that stand apart by twice their length.",
      "Nobody stands at the rod or touches the strap while the coil runs.",
    ],
  };
}

export function currentTransformerAdvice(solution: Solution, study: BurstStudy): CurrentTransformerAdvice | undefined {
  const { feedback } = solution.coil;
  if (!feedback?.transformer) return undefined;
  const { ratio, burden } = feedback.transformer;
  const of = feedback.sense === "secondaryCurrent" ? "secondary" : "primary";
  const top = study.figures.get("burst.peakTopVoltage")?.value;
  const perVolt = solution.figures.get("secondary.baseCurrentPerVolt")?.value;
  const peak =
    of === "primary"
      ? study.figures.get("burst.peakPrimaryCurrent")?.value
      : top === undefined || perVolt === undefined
        ? undefined
        : top * perVolt;
  return {
    ratio,
    burden,
    scale: ratio / burden,
    voltageAtPeak: peak === undefined ? undefined : (peak * burden) / ratio,
    of,
  };
}

/** At which everything above is reckoned [Hz]. */
export const runFrequency = (solution: Solution, study: BurstStudy): Hertz | undefined =>
  study.figures.get("burst.frequency")?.value ?? solution.figures.get("poles.lower")?.value;
