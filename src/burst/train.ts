/** Bursts one after the other: what one leaves behind, the next begins with. */
import { branchesOf } from "../circuit/branch.ts";
import { type BurstNetwork, requireNetwork } from "../circuit/network.ts";
import { type CircuitState, place, stateAtRest, stateOfVector, storedEnergy, vectorOfState } from "../circuit/state.ts";
import { affineSystem } from "../circuit/state-matrix.ts";
import { matrixExponential } from "../numerics/exponential.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Second, Volt } from "../units/si.ts";
import { type BurstOptions, simulateBurst } from "./burst.ts";
import type { BurstResult } from "./result.ts";

/** What is carried from burst to burst: the circuit, and how long a trip still holds the driver off. */
export interface BurstMemory {
  readonly state: CircuitState;
  readonly heldOffFor: Second;
}

/** One burst of a train. `period` is from its start to the start of the next; absent: the next begins at `endTime`. */
export interface TrainPulse extends Omit<BurstOptions, "initial" | "heldOff"> {
  readonly period?: Second;
}

/** The memory of a coil that has stood still. */
export function memoryAtRest(network: BurstNetwork): BurstMemory {
  return { state: stateAtRest(network), heldOffFor: 0 };
}

/**
 * One burst from what the one before has left: bus voltage, charge on the tank capacitor, ringing of the secondary, and a trip's
 * hold-off, in which the gates stay off. The streamer of the burst before is gone, with the charge on it.
 *
 * Nothing recharges the bus between bursts; see `rechargedBus` for that.
 *
 * @returns the burst, and the memory at the start of the next
 * @throws OutOfDomain  as `simulateBurst`, or a period shorter than the simulated time
 */
export function runBurst({
  network,
  pulse,
  memory,
}: {
  network: BurstNetwork;
  pulse: TrainPulse;
  memory: BurstMemory;
}): { result: BurstResult; memory: BurstMemory } {
  const period = pulse.period ?? pulse.endTime;
  if (!(period >= pulse.endTime))
    throw new OutOfDomain("runBurst", `the period must be at least the end time ${pulse.endTime} s, got ${period} s`);
  const result = simulateBurst(network, { ...pulse, initial: memory.state, heldOff: memory.heldOffFor > 0 });
  const held =
    result.tripTime === undefined ? memory.heldOffFor : result.tripTime + (network.overcurrent?.holdOff ?? 0);
  const state = rest({ network, state: result.finalState, duration: period - result.at });
  return { result, memory: { state, heldOffFor: Math.max(0, held - period) } };
}

/** Periods of the secondary after which a rest looks again whether the diodes have fallen silent for good. */
const restChunk = 10;

/**
 * The circuit left alone with all gates off: diodes return what is left, the secondary rings down. Exact; once no diode can conduct
 * any more the rest is one matrix exponential.
 * @param duration  [s]
 * @returns the state after it; the one it had got to where a guard stopped the diodes' part
 */
export function rest({
  network,
  state,
  duration,
}: {
  network: BurstNetwork;
  state: CircuitState;
  duration: Second;
}): CircuitState {
  requireNetwork(network);
  let here = state;
  let left = duration;
  const mode = network.modes[0];
  const cycle = Math.sqrt(
    mode ? mode.inductance * mode.capacitance : network.primary.inductance * network.primary.tankCapacitance,
  );
  while (left > 0) {
    if (staysBlocked(network, here)) return freeRinging(network, here, left);
    const endTime = Math.min(left, restChunk * 2 * Math.PI * cycle);
    const { finalState, reached } = simulateBurst(network, {
      onTime: 0,
      burstEnd: "immediate",
      endTime,
      initial: here,
      heldOff: true,
      waveforms: false,
    });
    here = finalState;
    if (reached !== "endTime") return here;
    left -= endTime;
  }
  return here;
}

/** Whether the energy left in the secondary is too small for its voltage in the primary ever to open a diode again. */
function staysBlocked(network: BurstNetwork, state: CircuitState): boolean {
  if (state.primaryCurrent !== 0) return false;
  const { upperDiode, lowerDiode } = branchesOf(network);
  const energy = storedEnergy(network, vectorOfState({ ...state, tankVoltage: 0 }));
  let induced = 0;
  for (const { mutual, inductance, capacitance, resistance } of network.modes) {
    const voltage = Math.sqrt((2 * energy) / capacitance);
    const current = Math.sqrt((2 * energy) / inductance);
    induced += Math.abs(mutual / inductance) * (voltage + resistance * current);
  }
  const lowest = lowerDiode.offset + lowerDiode.upper * state.busUpper + lowerDiode.lower * state.busLower;
  const highest = upperDiode.offset + upperDiode.upper * state.busUpper + upperDiode.lower * state.busLower;
  return state.tankVoltage - induced > lowest && state.tankVoltage + induced < highest;
}

function freeRinging(network: BurstNetwork, state: CircuitState, duration: Second): CircuitState {
  const { size, matrix } = affineSystem({ network, branch: branchesOf(network).blocked, sparking: false });
  const x = vectorOfState(state);
  // In square roots of energy the matrix is nearly normal, which its exponential needs to keep its digits.
  const scale = x.map(() => 1);
  network.modes.forEach(({ inductance, capacitance }, m) => {
    scale[place.modes + 2 * m] = Math.sqrt(inductance);
    scale[place.modes + 2 * m + 1] = Math.sqrt(capacitance);
  });
  const scaled = matrix.map((entry, k) => (entry * duration * scale[Math.floor(k / size)]!) / scale[k % size]!);
  const exponential = matrixExponential(scaled, size);
  const after = x.slice();
  for (let r = place.modes; r < size; r++) {
    let sum = 0;
    for (let c = place.modes; c < size; c++) sum += exponential[r * size + c]! * scale[c]! * x[c]!;
    after[r] = sum / scale[r]!;
  }
  return stateOfVector(after);
}

/**
 * The state after the supply has put the bus back to a voltage.
 * @param voltage     [V] across both capacitors
 * @param separately  true: each capacitor is charged by itself to half of it (a doubler); false: one current through both
 */
export function rechargedBus({
  state,
  voltage,
  separately,
}: {
  state: CircuitState;
  voltage: Volt;
  separately: boolean;
}): CircuitState {
  const each = (voltage - state.busUpper - state.busLower) / 2;
  return separately
    ? { ...state, busUpper: voltage / 2, busLower: voltage / 2 }
    : { ...state, busUpper: state.busUpper + each, busLower: state.busLower + each };
}
