/** What a wire or a loop some way off the coil shows on an oscilloscope, so that no probe is burnt. */
import type { Ampere, Hertz, Metre, Volt } from "../units/si.ts";
import type { PickupAdvice, PickupReading } from "./bringup-contract.ts";
import type { Solution } from "./contract.ts";

const epsilon0 = 8.8541878128e-12;
const mu0Over4Pi = 1e-7;

/** A usual wire, loop and instrument. Common practice, no source. */
const usual = {
  wireLength: 0.2,
  wireRadius: 0.4e-3,
  loopDiameter: 0.1,
  loopTurns: 1,
  /** 10:1 probe at its tip, and what it bears there, derated for the frequency. */
  probe: { capacitance: 15e-12, limit: 50 },
  terminated: 50,
};
const distances: readonly Metre[] = [0.5, 1, 2, 3, 5];
const farthest: Metre = 10;

/** The coil at one moment: peak of the top, of the primary current, at a frequency. */
export interface Radiating {
  readonly topVoltage: Volt;
  readonly primaryCurrent: Ampere;
  readonly frequency: Hertz;
}

/**
 * Potential at half the top's height, of a charge at the top and its image in the ground.
 * @validity  farther off than the top load is wide; a factor of two in a room
 */
function potentialAt(solution: Solution, voltage: Volt, distance: Metre): Volt {
  const capacitance = solution.figures.get("secondary.energyCapacitance")?.value ?? 0;
  const top = solution.modes[0]?.height.at(-1) ?? 0.5;
  const height = top / 2;
  const toCharge = Math.hypot(distance, top - height);
  const toImage = Math.hypot(distance, top + height);
  return ((capacitance * voltage) / (4 * Math.PI * epsilon0)) * (1 / toCharge - 1 / toImage);
}

/** Capacitance of a thin straight wire: 2πε0·l/(ln(2l/r) − 1). From memory. */
const wireCapacitance = (length: Metre, radius: Metre): number =>
  (2 * Math.PI * epsilon0 * length) / (Math.log((2 * length) / radius) - 1);

/** Peak reading of a wire of `wireLength`: divided between its own capacitance and the probe's, or across the termination. */
export function wireReading(
  solution: Solution,
  { topVoltage, frequency }: Radiating,
  { distance, into }: { distance: Metre; into: "probe" | "terminated" },
): Volt {
  const capacitance = wireCapacitance(usual.wireLength, usual.wireRadius);
  const open = potentialAt(solution, topVoltage, distance);
  if (into === "probe") return (open * capacitance) / (capacitance + usual.probe.capacitance);
  const reactance = 1 / (2 * Math.PI * frequency * capacitance);
  return (open * usual.terminated) / Math.hypot(reactance, usual.terminated);
}

/** Peak reading of the loop, its axis upright: ω·B·area, from the moments of primary and secondary in one plane with it. */
export function loopReading(
  solution: Solution,
  { topVoltage, primaryCurrent, frequency }: Radiating,
  distance: Metre,
): Volt {
  const { primary, secondary } = solution.coil;
  const mode = solution.modes[0];
  const mean = mode ? mode.current.reduce((sum, value) => sum + value, 0) / mode.current.length : 0.6;
  const base = (solution.figures.get("secondary.baseCurrentPerVolt")?.value ?? 0) * topVoltage;
  const inSecondary = secondary.turns * mean * base * Math.PI * (secondary.former.outerDiameter / 2) ** 2;
  const radius = primary
    ? primary.firstTurnDiameter / 2 + (Math.cos(primary.angle) * primary.pitch * (primary.tap - 1)) / 2
    : 0;
  const inPrimary = primary ? primary.tap * primary.layers.count * primaryCurrent * Math.PI * radius ** 2 : 0;
  // Their peaks lie a quarter of a beat apart: the greater of the two, not the sum.
  const moment = Math.max(inSecondary, inPrimary);
  const area = usual.loopTurns * Math.PI * (usual.loopDiameter / 2) ** 2;
  return (2 * Math.PI * frequency * mu0Over4Pi * moment * area) / distance ** 3;
}

export function pickupAdvice(solution: Solution, low: Radiating, full: Radiating): PickupAdvice {
  const wires = (into: "probe" | "terminated") =>
    distances.map((distance): PickupReading => {
      const at = (moment: Radiating) => wireReading(solution, moment, { distance, into });
      return { kind: "wire", into, distance, atLowBus: at(low), atFull: at(full) };
    });
  const loops = distances.map((distance): PickupReading => {
    const at = (moment: Radiating) => loopReading(solution, moment, distance);
    return { kind: "loop", into: "terminated", distance, atLowBus: at(low), atFull: at(full) };
  });
  const steps = Array.from({ length: 96 }, (_, n) => 0.5 + 0.1 * n).filter((distance) => distance <= farthest);
  return {
    wireLength: usual.wireLength,
    loopDiameter: usual.loopDiameter,
    loopTurns: usual.loopTurns,
    readings: [...wires("probe"), ...wires("terminated"), ...loops],
    wireFrom: steps.find((distance) => wireReading(solution, full, { distance, into: "probe" }) < usual.probe.limit),
    limit: usual.probe.limit,
    says: [
      "The figures are peaks and good to a factor of two or three: walls, leads and people bend the field. Begin far away and come nearer.",
      "A bare wire picks up the top's voltage: into an open probe it can show hundreds of volts, into 50 Ω at the oscilloscope a thousandth of that. Begin with 50 Ω.",
      "The loop's figures are what the current gives. An open loop also picks up the top's voltage, about as much as the wire does into 50 Ω; only a loop in a shield with a gap shows the current alone.",
      "The steep edges of the bridge come in through the ground lead: keep it as short as a finger, twist the loop's leads, and lay no lead beside the primary.",
      "The ground clip of a mains oscilloscope is protective earth. On the bus, the bridge or the primary it is a short circuit through the instrument: use a differential probe rated for the voltage, or the current transformer.",
      "Where the streamer may reach, no probe, no lead and no instrument: a strike goes through all of them.",
    ],
  };
}
