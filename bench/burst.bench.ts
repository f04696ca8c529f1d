/** One burst against the plainest other way: a march of fixed steps through the same circuit. */
import { simulateBurst } from "../src/burst/burst.ts";
import { branchesOf } from "../src/circuit/branch.ts";
import { affineSystem } from "../src/circuit/state-matrix.ts";
import { burstPulse, coilOfBench } from "./burst-coil.ts";
import type { Race } from "./race.ts";

const { size, matrix, constant } = affineSystem({
  network: coilOfBench,
  branch: branchesOf(coilOfBench).upperSwitch,
  sparking: false,
});
const step = 5e-9;

/** Runge–Kutta of fourth order in steps of 5 ns over the on-time, one branch, no event looked for, no energy booked. */
function march(): Float64Array {
  const x = new Float64Array(size);
  const trial = new Float64Array(size);
  const slope = new Float64Array(size);
  const sum = new Float64Array(size);
  const stages: readonly (readonly [reach: number, weight: number])[] = [
    [0, 1],
    [0.5, 2],
    [0.5, 2],
    [1, 1],
  ];
  for (let time = 0; time < burstPulse.onTime; time += step) {
    sum.fill(0);
    for (const [reach, weight] of stages) {
      for (let r = 0; r < size; r++) trial[r] = x[r]! + reach * step * slope[r]!;
      for (let r = 0; r < size; r++) {
        let value = constant[r]!;
        for (let c = 0; c < size; c++) value += matrix[r * size + c]! * trial[c]!;
        slope[r] = value;
        sum[r]! += weight * value;
      }
    }
    for (let r = 0; r < size; r++) x[r]! += (step / 6) * sum[r]!;
  }
  return x;
}

export default [
  {
    name: "a burst of 120 µs with all its figures",
    candidate: () => simulateBurst(coilOfBench, burstPulse),
    reference: march,
    against: "24 000 Runge–Kutta steps through the same circuit that look for no event",
    atMost: 0.15,
  },
] satisfies readonly Race[];
