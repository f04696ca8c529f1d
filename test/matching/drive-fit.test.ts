/** The drive of one burst from the whole of it: even, or following its own current. */
import { describe, expect, it } from "vitest";
import { fitDrive } from "../../src/matching/reading/drive-fit.ts";
import type { DriveSearch } from "../../src/matching/reading/drive-search.ts";
import { fitDecay } from "../../src/matching/reading/ring-down.ts";
import { chance, polesOf, type Resonators, simulate, type Train } from "./two-resonators.ts";

const resonators: Resonators = {
  primaryFrequency: 0.98,
  secondaryFrequency: 1,
  primaryQ: 70,
  secondaryQ: 130,
  coupling: 0.13,
};
/** Values to a cycle of the secondary. */
const perCycle = 12;
const [start, onTime] = [8.37, 19.62];

/** A burst in cycles of the secondary, one value every twelfth of a cycle, and what is known of its decay. */
function searchOf(drive: Train["drive"], seed: number, sigma = 0.004) {
  const length = 12 * 230;
  const signals = simulate(
    { resonators, drive, onTime, starts: [start] },
    { start: 0, interval: 1 / perCycle, length },
  );
  const random = chance(seed);
  const values = signals.primaryCurrent.map((value) => value + sigma * random.normal());
  const endNear = Math.ceil((start + onTime + 0.5) * perCycle);
  const decay = fitDecay(values.subarray(endNear), {
    decay: 0.002,
    angular: (2 * Math.PI * polesOf(resonators)[0]!.frequency) / perCycle,
  })!;
  const search: DriveSearch = {
    values,
    decay,
    startNear: start * perCycle + 6,
    endNear,
    cycle: perCycle,
    noise: sigma ** 2,
    peak: 1,
    answers: ["current"],
  };
  return { search, commutations: signals.commutations[0]! };
}

describe("the drive of a burst", () => {
  it.each([
    [0.93, "even"],
    [1.03, "even"],
    ["feedback", "current"],
  ] as const)("given as %s is found to be %s, with start, length and frequency", (drive, by) => {
    // independent: the generator's own start, on-time and commutations
    const missed = { length: 0, frequency: 0 };
    for (let seed = 1; seed <= 6; seed++) {
      const { search, commutations } = searchOf(drive, seed);
      const found = fitDrive(search);
      const mean = (commutations.length - 1) / (2 * (commutations.at(-1)! - commutations[0]!));
      expect(found?.usual.by).toBe(by);
      expect(Math.abs(found!.start.at / perCycle - start)).toBeLessThan(0.03);
      expect(Math.abs(found!.length.value / perCycle - onTime)).toBeLessThan(0.1);
      expect(Math.abs((found!.frequency.value * perCycle) / mean - 1)).toBeLessThan(4e-4);
      // Beyond three standard errors, a hundredth of a half-cycle of the model's own apart.
      if (Math.abs(found!.length.value - onTime * perCycle) > 3 * found!.length.error + 0.06) missed.length++;
      if (Math.abs(found!.frequency.value - mean / perCycle) > 3 * found!.frequency.error + 2e-6) missed.frequency++;
    }
    expect(missed.length).toBeLessThan(2);
    expect(missed.frequency).toBeLessThan(2);
  });

  it("is found again from what the burst before said", () => {
    // law: knowing more must not change the answer
    const { search } = searchOf(0.93, 3);
    const found = fitDrive(search)!;
    const again = fitDrive({ ...search, usual: found.usual })!;
    expect(again.length.value).toBeCloseTo(found.length.value, 2);
    expect(again.frequency.value).toBeCloseTo(found.frequency.value, 6);
  });

  it("is not found where none can be", () => {
    // law: too few cycles, too many, no quiet before it, and a burst that swells and fades as no square makes it
    const { search } = searchOf(0.93, 4);
    expect(fitDrive({ ...search, endNear: search.startNear + 3 * perCycle })).toBeUndefined();
    expect(fitDrive({ ...search, endNear: search.startNear + 130 * perCycle })).toBeUndefined();
    expect(fitDrive({ ...search, startNear: perCycle })).toBeUndefined();
    const swelling = search.values.map((value, n) => {
      const t = (n - search.startNear) / (search.endNear - search.startNear);
      return t > 0 && t < 1 ? Math.sin(Math.PI * t) ** 2 * Math.sin(0.5 * n + 3 * t * t) : value;
    });
    expect(fitDrive({ ...search, values: swelling })).toBeUndefined();
  });
});
