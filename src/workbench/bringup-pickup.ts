/** What a wire or a loop some way off the coil shows on an oscilloscope, so that no probe is burnt. */
import type { Metre, Volt } from "../units/si.ts";
import type { PickupAdvice, PickupInstrument, PickupReading, Radiating } from "./bringup-contract.ts";
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
  /** The instrument's own input, and 5 V effective that it bears. */
  terminated: { resistance: 50, limit: 7 },
};
const distances: readonly Metre[] = [0.5, 1, 2, 3, 5];
const [nearest, farthest, step]: readonly [Metre, Metre, Metre] = [0.5, 10, 0.1];
/** How far off a reading may be, as a factor. */
const doubt = 3;

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

/** Inductance of a round turn of thin wire, times the turns squared. From memory: µ0·a·(ln(8a/r) − 2). */
const loopInductance = (diameter: Metre, turns: number): number =>
  4 * Math.PI * mu0Over4Pi * (diameter / 2) * (Math.log((4 * diameter) / usual.wireRadius) - 2) * turns * turns;

/** Peak reading of a bare wire, divided between its own capacitance and what it is joined to. */
export function wireReading(
  solution: Solution,
  { topVoltage, frequency }: Radiating,
  { distance, into, length = usual.wireLength }: { distance: Metre; into: PickupInstrument["into"]; length?: Metre },
): Volt {
  const capacitance = wireCapacitance(length, usual.wireRadius);
  const open = potentialAt(solution, topVoltage, distance);
  if (into === "probe") return (open * capacitance) / (capacitance + usual.probe.capacitance);
  const reactance = 1 / (2 * Math.PI * frequency * capacitance);
  return (open * usual.terminated.resistance) / Math.hypot(reactance, usual.terminated.resistance);
}

/** Peak of the upright field B [T] in one plane with primary and secondary: the greater of their two moments. */
export function fieldAt(solution: Solution, { topVoltage, primaryCurrent }: Radiating, distance: Metre): number {
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
  return (mu0Over4Pi * Math.max(inSecondary, inPrimary)) / distance ** 3;
}

/** Peak reading of the loop, its axis upright: ω·B·area·turns, divided between its own inductance and 50 Ω where it is terminated. */
export function loopReading(
  solution: Solution,
  moment: Radiating,
  distance: Metre,
  {
    diameter = usual.loopDiameter,
    turns = usual.loopTurns,
    into = "terminated",
  }: { diameter?: Metre; turns?: number; into?: PickupInstrument["into"] } = {},
): Volt {
  const omega = 2 * Math.PI * moment.frequency;
  const open = omega * fieldAt(solution, moment, distance) * turns * Math.PI * (diameter / 2) ** 2;
  if (into === "probe") return open;
  const { resistance } = usual.terminated;
  return (open * resistance) / Math.hypot(resistance, omega * loopInductance(diameter, turns));
}

function readingAt(solution: Solution, moment: Radiating, instrument: PickupInstrument, distance: Metre): Volt {
  const { kind, size, turns, into } = instrument;
  return kind === "wire"
    ? wireReading(solution, moment, { distance, into, length: size })
    : loopReading(solution, moment, distance, { diameter: size, turns, into });
}

/**
 * What this instrument shows at the first low bus and at full, and whether what it is joined to bears that.
 *
 * @param size  [m] > 0: of the loop its diameter, of the wire its length
 * @validity  a factor of two or three in a real room; the loop's figures are of the current alone, farther off than the primary is wide
 */
export function pickupReading(
  solution: Solution,
  instrument: PickupInstrument,
  { low, full }: { low: Radiating; full: Radiating },
): PickupReading {
  const limit = instrument.into === "probe" ? usual.probe.limit : usual.terminated.limit;
  const at = (moment: Radiating, distance: Metre): Volt => readingAt(solution, moment, instrument, distance);
  const within = (distance: Metre): boolean => doubt * at(full, distance) < limit;
  const steps = Array.from({ length: Math.round((farthest - nearest) / step) + 1 }, (_, n) => nearest + n * step);
  return {
    ...instrument,
    atLowBus: at(low, instrument.distance),
    atFull: at(full, instrument.distance),
    limit,
    withinAtFull: within(instrument.distance),
    from: steps.find(within),
  };
}

export function pickupAdvice(
  solution: Solution,
  moments: { low: Radiating; full: Radiating },
  instrument?: PickupInstrument,
): PickupAdvice {
  const all = (parts: Omit<PickupInstrument, "distance">) =>
    distances.map((distance) => pickupReading(solution, { ...parts, distance }, moments));
  const wire = { kind: "wire", size: usual.wireLength, turns: 0 } as const;
  const loop = { kind: "loop", size: usual.loopDiameter, turns: usual.loopTurns } as const;
  const wires = all({ ...wire, into: "probe" });
  return {
    wireLength: usual.wireLength,
    loopDiameter: usual.loopDiameter,
    loopTurns: usual.loopTurns,
    ...moments,
    readings: [...wires, ...all({ ...wire, into: "terminated" }), ...all({ ...loop, into: "terminated" })],
    ...(instrument ? { chosen: pickupReading(solution, instrument, moments) } : {}),
    wireFrom: wires[0]?.from,
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
