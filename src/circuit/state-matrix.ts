/** The circuit in one of its ways as x′ = A·x + b. */
import type { Branch } from "./branch.ts";
import { type BurstNetwork, leakageInductance } from "./network.ts";
import { place, stateSize } from "./state.ts";

export interface AffineSystem {
  readonly size: number;
  /** A, [size × size], row-major, in the order of `place`. */
  readonly matrix: Float64Array;
  /** b, [size]. */
  readonly constant: Float64Array;
}

/**
 * The state equations of one branch. With Λ = L_p − ΣM²/L_m and w = v_C + Σ(M/L_m)·(v_m − R_m·i_m), the voltage of the open load,
 *
 *   Λ·i′ = u − R_p·i − w      L_m·i_m′ = v_m − R_m·i_m − M·i′      C·v_C′ = i      C_m·v_m′ = −i_m − i_k
 *   i_k = (Σv_m − v_k)/R_k    C_k·v_k′ = i_k    C_b·v_u′ = −upper·i    C_b·v_l′ = −lower·i
 *
 * and i′ = 0 where the branch is blocked.
 *
 * @param sparking  whether the streamer is there
 * @source Kirchhoff's laws; the inductance matrix has the shape of an arrow and is inverted by hand
 */
export function affineSystem({
  network,
  branch,
  sparking,
}: {
  network: BurstNetwork;
  branch: Branch;
  sparking: boolean;
}): AffineSystem {
  const size = stateSize(network);
  const a = new Float64Array(size * size);
  const constant = new Float64Array(size);
  const { primary, modes, streamer, bus } = network;
  const row = (r: number, c: number, value: number): void => {
    a[r * size + c]! += value;
  };
  const { current: I, tank, busUpper, busLower } = place;

  if (branch.sign !== 0) {
    const perLeakage = 1 / leakageInductance(network);
    row(I, busUpper, branch.upper * perLeakage);
    row(I, busLower, branch.lower * perLeakage);
    row(I, I, -(branch.resistance + primary.resistance) * perLeakage);
    row(I, tank, -perLeakage);
    constant[I] = branch.offset * perLeakage;
    modes.forEach(({ mutual, inductance, resistance }, m) => {
      const at = place.modes + 2 * m;
      row(I, at + 1, (-mutual / inductance) * perLeakage);
      row(I, at, (mutual / inductance) * resistance * perLeakage);
    });
  }
  row(tank, I, 1 / primary.tankCapacitance);
  row(busUpper, I, -branch.upper / bus.capacitorEach);
  row(busLower, I, -branch.lower / bus.capacitorEach);

  modes.forEach(({ mutual, inductance, resistance, capacitance }, m) => {
    const at = place.modes + 2 * m;
    row(at, at + 1, 1 / inductance);
    row(at, at, -resistance / inductance);
    for (let c = 0; c < size; c++) row(at, c, (-mutual / inductance) * a[I * size + c]!);
    constant[at] = (-mutual / inductance) * constant[I]!;
    row(at + 1, at, -1 / capacitance);
  });
  if (sparking && streamer) {
    for (let m = 0; m < modes.length; m++) {
      const perSecond = 1 / (streamer.resistance * modes[m]!.capacitance);
      const voltage = place.modes + 2 * m + 1;
      for (let other = 0; other < modes.length; other++) row(voltage, place.modes + 2 * other + 1, -perSecond);
      row(voltage, place.streamer, perSecond);
      row(place.streamer, voltage, 1 / (streamer.resistance * streamer.capacitance));
    }
    row(place.streamer, place.streamer, -1 / (streamer.resistance * streamer.capacitance));
  }
  return { size, matrix: a, constant };
}

/**
 * A bound for how fast the circuit can move in any of its ways [1/s]: no eigenvalue of A is larger, and the k-th term of the
 * series of exp(A·h) is at most (rate·h)^k/k! of the energy norm. It is √(‖S·A·S⁻¹‖₁·‖S·A·S⁻¹‖∞) with S the square roots of
 * inductances and capacitances, so that unlike units do not enter.
 */
export function rateBound({
  network,
  branches,
  sparking,
}: {
  network: BurstNetwork;
  branches: readonly Branch[];
  sparking: boolean;
}): number {
  const { primary, modes, streamer, bus } = network;
  const scale = new Float64Array(stateSize(network));
  scale[place.current] = Math.sqrt(primary.inductance);
  scale[place.tank] = Math.sqrt(primary.tankCapacitance);
  scale[place.busUpper] = Math.sqrt(bus.capacitorEach);
  scale[place.busLower] = Math.sqrt(bus.capacitorEach);
  scale[place.streamer] = Math.sqrt(streamer?.capacitance ?? 1);
  modes.forEach(({ inductance, capacitance }, m) => {
    scale[place.modes + 2 * m] = Math.sqrt(inductance);
    scale[place.modes + 2 * m + 1] = Math.sqrt(capacitance);
  });
  let bound = 0;
  for (const branch of branches) {
    const { size, matrix } = affineSystem({ network, branch, sparking });
    let rows = 0;
    const columns = new Float64Array(size);
    for (let r = 0; r < size; r++) {
      let sum = 0;
      for (let c = 0; c < size; c++) {
        const entry = Math.abs(matrix[r * size + c]! * (scale[r]! / scale[c]!));
        sum += entry;
        columns[c]! += entry;
      }
      rows = Math.max(rows, sum);
    }
    bound = Math.max(bound, Math.sqrt(rows * Math.max(...columns)));
  }
  return bound;
}
