import { describe, expect, it } from "vitest";
import type { Coil } from "../../src/description/coil.ts";
import { judgedBursts } from "../../src/findings/index.ts";
import { judgedAgain } from "../../src/findings/judged-bursts.ts";
import { rateWithin, shortestOfNote } from "../../src/findings/limits.ts";
import type { BurstStudy } from "../../src/workbench/burst-contract.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import type { Solution } from "../../src/workbench/contract.ts";
import { demo, demoNames } from "../workbench/standoff-coils.ts";

const limits = { onTime: 200e-6, duty: 0.04, rate: 400, gap: 500e-6 };

describe("the highest rate of a length of burst", () => {
  // law: whatever is within reach of a knob keeps all four limits, and a shorter burst never comes more seldom
  it("keeps every limit and meets one", () => {
    for (const onTime of [20e-6, 80e-6, 100e-6, 150e-6, 200e-6]) {
      const rate = rateWithin(limits, onTime);
      expect(rate).toBeLessThanOrEqual(limits.rate);
      expect(onTime * rate).toBeLessThanOrEqual(limits.duty * (1 + 1e-12));
      expect(1 / rate - onTime).toBeGreaterThanOrEqual(limits.gap * (1 - 1e-12));
      const met = [rate / limits.rate, (onTime * rate) / limits.duty, limits.gap / (1 / rate - onTime)];
      expect(Math.max(...met)).toBeCloseTo(1, 9);
    }
  });

  // by hand: 4 % / 400 Hz = 100 µs; without a duty that binds the longest burst may come at the highest rate
  it("is the limit of the rate from the shortest burst of note down", () => {
    expect(shortestOfNote(limits)).toBeCloseTo(100e-6, 12);
    expect(shortestOfNote({ ...limits, duty: 0.5 })).toBe(limits.onTime);
  });
});

/** Numbers between 0 and 1 that are the same in every run. */
function chance(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A demo coil with limits, mains and trip of its own; the fields are the demo's. */
function coilByChance(name: string, next: () => number): { coil: Coil; solution: Solution } {
  const { coil, solution } = demo(name);
  const between = (low: number, high: number) => low * (high / low) ** next();
  const { interrupter, supply, feedback } = coil;
  if (!interrupter || !supply || !feedback?.overcurrent) throw new Error(`${name} is not driven`);
  const own = {
    onTime: interrupter.onTime * between(1, 3),
    duty: interrupter.onTime * interrupter.rate * between(1, 4),
    rate: interrupter.rate * between(1, 4),
    gap: between(50e-6, 1e-3),
  };
  const mains = { ...supply.mains, voltage: supply.mains.voltage * between(0.5, 1.4) };
  const overcurrent = feedback.overcurrent * between(0.5, 1.5);
  return {
    coil: {
      ...coil,
      interrupter: { ...interrupter, limits: own },
      supply: { ...supply, mains },
      feedback: { ...feedback, overcurrent },
    },
    solution,
  };
}

const reach = ({ figures }: BurstStudy) => figures.get("burst.streamerLength")?.high ?? 0;

function judgedReach(coil: Coil, solution: Solution): number {
  const { study: own, atLimits, unlit, beyond = [] } = judgedBursts(coil, solution);
  return Math.max(...[own, atLimits, unlit, ...beyond].flatMap((one) => (one ? [reach(one)] : [])));
}

/**
 * What a search of a few bursts may leave out: a train is steady when its channel repeats to 2 %, through which the reach answers up to four times
 * as strongly (the clamp of the secant in burst-train.ts).
 */
const tolerance = 1.08;

describe("the furthest reach that is judged by", () => {
  // law: no burst inside the limits, at the stated mains or below, reaches further. Coils and settings by chance, the same in every run; 4 s
  it.each(demoNames)("is not exceeded by any setting within the limits, on variants of %s", (name) => {
    const next = chance(name.length);
    for (let variant = 0; variant < 4; variant++) {
      const { coil, solution } = coilByChance(name, next);
      const judged = judgedReach(coil, solution);
      const own = coil.interrupter!.limits!;
      for (let setting = 0; setting < 20; setting++) {
        const onTime = own.onTime * next();
        const rate = rateWithin(own, onTime) * (next() < 0.6 ? 1 : next());
        const mains = next() < 0.5 ? 1 : 0.3 + 0.7 * next();
        const words = `${variant}: ${onTime} s, ${rate} Hz, ${mains} of the mains`;
        expect(reach(study(coil, solution, { onTime, rate, mains })), words).toBeLessThan(tolerance * judged);
      }
    }
  });

  // law: a trip that comes earlier because the mains rose may not make the line shorter
  it("does not fall as the mains rise, where a trip ends the bursts", () => {
    const { coil, solution } = demo("belfry");
    const { supply } = coil;
    if (!supply) throw new Error("no supply");
    const at = (share: number) =>
      judgedReach(
        { ...coil, supply: { ...supply, mains: { ...supply.mains, voltage: share * supply.mains.voltage } } },
        solution,
      );
    const reaches = [0.5, 0.6, 0.7, 0.85, 1, 1.2].map(at);
    for (const [index, found] of reaches.entries()) {
      expect(tolerance * found).toBeGreaterThan(Math.max(...reaches.slice(0, index + 1)));
    }
  });
});

describe("judgedAgain", () => {
  // law: a coil that was not moved has the same bursts, without a search
  it.each(demoNames)("finds the bursts of %s where they were", (name) => {
    const { coil, solution, bursts } = demo(name);
    const again = judgedAgain(coil, solution, { coil, bursts });
    expect(again.beyond?.length).toBe(bursts.beyond?.length);
    for (const [index, one] of (bursts.beyond ?? []).entries()) {
      expect(reach(again.beyond![index]!) / Math.max(1e-9, reach(one)) || 1).toBeCloseTo(1, 3);
    }
  });
});
