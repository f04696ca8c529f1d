import { readFileSync } from "node:fs";
import fc from "fast-check";
import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { describe, expect, test } from "vitest";
import { StepSeries } from "../../src/burst/series.ts";
import { type Branch, branchesOf, ways } from "../../src/circuit/branch.ts";
import { type BurstNetwork, mutualOfCoupling } from "../../src/circuit/network.ts";
import { place, storedEnergy } from "../../src/circuit/state.ts";
import { affineSystem, rateBound } from "../../src/circuit/state-matrix.ts";
import { matrixExponential } from "../../src/numerics/exponential.ts";
import { anyNetwork, energyScale, idealNetwork } from "../burst/networks.ts";

const seed = 20260102;
type Inputs = Readonly<Record<"f1" | "f2" | "k" | "L1" | "C1" | "R1" | "L2" | "C2" | "R2", number>>;
const entries = (
  JSON.parse(readFileSync(new URL("../reference/coupled-resonators.json", import.meta.url), "utf8")) as {
    readonly entries: readonly {
      readonly quantity: string;
      readonly inputs: Inputs;
      readonly value: number | readonly number[];
      readonly decayRate: number;
    }[];
  }
).entries;

/** Two coupled loops whose primary is closed by a stiff bus. */
function loops({ L1, C1, R1, L2, C2, R2, k }: Omit<Inputs, "f1" | "f2">): BurstNetwork {
  return idealNetwork({
    primary: { inductance: L1, resistance: R1, tankCapacitance: C1 },
    modes: [
      {
        inductance: L2,
        capacitance: C2,
        resistance: R2,
        mutual: mutualOfCoupling({ coupling: k, primaryInductance: L1, modeInductance: L2 }),
      },
    ],
  });
}

/** Eigenvalues by another package, of the matrix in square roots of energy so that unlike units cost no digits. */
function eigenvalues(network: BurstNetwork, branch: Branch, sparking: boolean): EigenvalueDecomposition {
  const { size, matrix } = affineSystem({ network, branch, sparking });
  const scale = energyScale(network);
  const scaled = Array.from(matrix, (entry, n) => (entry * scale[Math.floor(n / size)]!) / scale[n % size]!);
  return new EigenvalueDecomposition(Matrix.from1DArray(size, size, scaled), { assumeSymmetric: false });
}

/** Eigenvalues with positive imaginary part: [frequency in Hz, decay rate in 1/s], lowest first. */
function oscillations(network: BurstNetwork): (readonly [number, number])[] {
  const branch = branchesOf(network).upperSwitch;
  const { realEigenvalues, imaginaryEigenvalues } = eigenvalues(network, branch, false);
  return realEigenvalues
    .map((real, n) => [imaginaryEigenvalues[n]! / (2 * Math.PI), -real] as const)
    .filter(([frequency]) => frequency > 1)
    .sort(([a], [b]) => a - b);
}

const anyPhase = fc.double({ min: 0, max: 6, noNaN: true });

/** A state in which every place holds about one unit of energy, so that none is lost in the rounding of another. */
function stateOfUnitEnergies(scale: readonly number[], branch: Branch, phase: number): Float64Array {
  const x = Float64Array.from(scale, (unit, n) => Math.cos(3 * n + phase) / unit);
  if (branch.sign === 0) x[place.current] = 0;
  return x;
}

describe("affineSystem", () => {
  // independent: closed form of two coupled loops, mpmath (test/reference/coupled-resonators.json, poles)
  test.each(entries.filter(({ quantity }) => quantity === "poles"))("has the poles of $inputs", ({ inputs, value }) => {
    const { f1, f2, k } = inputs;
    const L1 = 1e-5;
    const L2 = 0.03;
    const capacitance = (f: number, L: number): number => 1 / ((2 * Math.PI * f) ** 2 * L);
    const network = loops({ L1, C1: capacitance(f1, L1), R1: 0, L2, C2: capacitance(f2, L2), R2: 0, k });
    const [lower, upper] = oscillations(network);
    expect(lower![0] / (value as readonly number[])[0]!).toBeCloseTo(1, 10);
    expect(upper![0] / (value as readonly number[])[1]!).toBeCloseTo(1, 10);
  });

  // independent: roots of the quartic, mpmath (same file, dampedPole)
  test.each(entries.filter(({ quantity }) => quantity.startsWith("dampedPole")))(
    "has the damped pole $quantity of $inputs",
    ({ quantity, inputs, value, decayRate }) => {
      const [frequency, rate] = oscillations(loops(inputs))[quantity.endsWith("lower") ? 0 : 1]!;
      expect(frequency / (value as number)).toBeCloseTo(1, 9);
      expect(rate / decayRate).toBeCloseTo(1, 8);
    },
  );

  test("loses energy in resistances and drops only", () => {
    // law: d/dt(stored + bus) = −Σ R·i² + offset·i, for any state and any branch
    fc.assert(
      fc.property(anyNetwork, fc.constantFrom(...ways), fc.boolean(), anyPhase, (network, way, sparking, phase) => {
        const branch = branchesOf(network)[way];
        const { size, matrix, constant } = affineSystem({ network, branch, sparking });
        const scale = energyScale(network);
        const x = stateOfUnitEnergies(scale, branch, phase);
        const slope = constant.map(
          (start, r) => start + x.reduce((sum, value, c) => sum + matrix[r * size + c]! * value, 0),
        );
        const bus = network.bus.capacitorEach;
        const energy = (y: Float64Array): number =>
          storedEnergy(network, y) + 0.5 * bus * (y[place.busUpper]! ** 2 + y[place.busLower]! ** 2);
        // A difference across a step is the exact derivative of a quadratic, whatever the step.
        const step = 1e-6;
        const after = energy(x.map((value, n) => value + step * slope[n]!));
        const before = energy(x.map((value, n) => value - step * slope[n]!));
        const gain = (after - before) / (2 * step);

        const i = x[place.current]!;
        let loss = (branch.resistance + network.primary.resistance) * i * i - branch.offset * i;
        network.modes.forEach(({ resistance }, m) => {
          loss += resistance * x[place.modes + 2 * m]! ** 2;
        });
        if (sparking && network.streamer) {
          const top = network.modes.reduce((sum, _, m) => sum + x[place.modes + 2 * m + 1]!, 0);
          loss += (top - x[place.streamer]!) ** 2 / network.streamer.resistance;
        }
        // The flows that cancel are of the order of energy times rate.
        const flow = rateBound({ network, branches: [branch], sparking });
        expect(Math.abs(gain + loss)).toBeLessThan(1e-8 * (flow + Math.abs(loss)));
      }),
      { seed, numRuns: 200 },
    );
  });

  test("gives, through its exponential, what the series of a step gives", () => {
    // independent: exponential of the system with its constant as one more column, by scaling and squaring
    const anyAngle = fc.double({ min: 0.05, max: 2, noNaN: true });
    fc.assert(
      fc.property(anyNetwork, fc.constantFrom(...ways), anyPhase, anyAngle, (network, way, phase, angle) => {
        const sparking = network.streamer !== undefined;
        const branch = branchesOf(network)[way];
        const rate = rateBound({ network, branches: [branch], sparking });
        const duration = angle / rate;
        const scale = energyScale(network);
        const x = stateOfUnitEnergies(scale, branch, phase);
        const { size, matrix, constant } = affineSystem({ network, branch, sparking });
        const wide = size + 1;
        const augmented = new Float64Array(wide * wide);
        for (let r = 0; r < size; r++) {
          for (let c = 0; c < size; c++)
            augmented[r * wide + c] = (duration * matrix[r * size + c]! * scale[r]!) / scale[c]!;
          augmented[r * wide + size] = duration * constant[r]! * scale[r]!;
        }
        const exponential = matrixExponential(augmented, wide);
        const series = new StepSeries(network);
        series.expand({ x, branch, sparking, rate, duration });
        const after = new Float64Array(size);
        series.stateAt(1, after);
        const largest = Math.max(2, Math.abs(branch.offset * duration) / Math.sqrt(network.primary.inductance));
        for (let r = 0; r < size; r++) {
          let expected = exponential[r * wide + size]!;
          for (let c = 0; c < size; c++) expected += exponential[r * wide + c]! * scale[c]! * x[c]!;
          expect(Math.abs(after[r]! * scale[r]! - expected)).toBeLessThan(1e-12 * largest);
        }
      }),
      { seed, numRuns: 200 },
    );
  });
});

describe("rateBound", () => {
  test("is above every eigenvalue, and not by much for a usual coil", () => {
    // independent: eigenvalues by another package
    fc.assert(
      fc.property(anyNetwork, (network) => {
        const branches = Object.values(branchesOf(network));
        const bound = rateBound({ network, branches, sparking: true });
        for (const branch of branches) {
          const eigen = eigenvalues(network, branch, true);
          eigen.realEigenvalues.forEach((real, n) => {
            expect(Math.hypot(real, eigen.imaginaryEigenvalues[n]!)).toBeLessThan(bound * (1 + 1e-9));
          });
        }
        const fastest = Math.max(...oscillations(network).map(([frequency]) => 2 * Math.PI * frequency));
        expect(rateBound({ network, branches, sparking: false })).toBeLessThan(3 * fastest);
      }),
      { seed, numRuns: 100 },
    );
  });
});
