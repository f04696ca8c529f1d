/** The state of the circuit: which number stands where, and the energy it holds. */
import type { Ampere, Joule, Volt } from "../units/si.ts";
import type { BurstNetwork } from "./network.ts";

/** Places in a state vector: primary current, tank voltage, bus capacitors, streamer capacitor, then [current, voltage] of each mode. */
export const place = { current: 0, tank: 1, busUpper: 2, busLower: 3, streamer: 4, modes: 5 } as const;

/** Length of a state vector. */
export function stateSize(network: Pick<BurstNetwork, "modes">): number {
  return place.modes + 2 * network.modes.length;
}

/** The state in words, for callers. Modes in the network's order. */
export interface CircuitState {
  readonly primaryCurrent: Ampere;
  readonly tankVoltage: Volt;
  /** Of each bus capacitor without its resistance; both positive. */
  readonly busUpper: Volt;
  readonly busLower: Volt;
  readonly modes: readonly { readonly current: Ampere; readonly voltage: Volt }[];
}

/** Everything at rest, the bus at its voltage. */
export function stateAtRest(network: BurstNetwork): CircuitState {
  return {
    primaryCurrent: 0,
    tankVoltage: 0,
    busUpper: network.bus.voltage / 2,
    busLower: network.bus.voltage / 2,
    modes: network.modes.map(() => ({ current: 0, voltage: 0 })),
  };
}

export function vectorOfState(state: CircuitState): Float64Array {
  const { primaryCurrent, tankVoltage, busUpper, busLower, modes } = state;
  return Float64Array.from([
    primaryCurrent,
    tankVoltage,
    busUpper,
    busLower,
    0,
    ...modes.flatMap(({ current, voltage }) => [current, voltage]),
  ]);
}

export function stateOfVector(x: Float64Array): CircuitState {
  const modes = [];
  for (let at: number = place.modes; at < x.length; at += 2) modes.push({ current: x[at]!, voltage: x[at + 1]! });
  return {
    primaryCurrent: x[place.current]!,
    tankVoltage: x[place.tank]!,
    busUpper: x[place.busUpper]!,
    busLower: x[place.busLower]!,
    modes,
  };
}

/** Energy in tank, coils, modes and streamer: ½Cv² + ½L_p·i² + Σ(M·i·i_m + ½L_m·i_m² + ½C_m·v_m²) + ½C_k·v_k². */
export function storedEnergy(
  { primary, modes, streamer }: Pick<BurstNetwork, "primary" | "modes" | "streamer">,
  x: Float64Array,
): Joule {
  const i = x[place.current]!;
  let energy = 0.5 * primary.tankCapacitance * x[place.tank]! ** 2 + 0.5 * primary.inductance * i * i;
  modes.forEach(({ inductance, capacitance, mutual }, m) => {
    const current = x[place.modes + 2 * m]!;
    const voltage = x[place.modes + 2 * m + 1]!;
    energy += mutual * i * current + 0.5 * inductance * current * current + 0.5 * capacitance * voltage * voltage;
  });
  if (streamer) energy += 0.5 * streamer.capacitance * x[place.streamer]! ** 2;
  return energy;
}
