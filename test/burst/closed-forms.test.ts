/** The burst solver against circuits that have a solution on paper. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import type { BurstNetwork } from "../../src/circuit/network.ts";
import { mutualOfCoupling } from "../../src/circuit/network.ts";
import { stateAtRest } from "../../src/circuit/state.ts";
import { idealNetwork, usualNetwork } from "./networks.ts";

interface Entry {
  readonly quantity: string;
  readonly inputs: Readonly<Record<string, number>>;
  readonly value: number;
  readonly time: number;
  readonly transferTime: number;
}
const entries = (
  JSON.parse(readFileSync(new URL("../reference/coupled-resonators.json", import.meta.url), "utf8")) as {
    readonly entries: readonly Entry[];
  }
).entries;
const of = (quantity: string): readonly Entry[] => entries.filter((entry) => entry.quantity === quantity);

/** Two coupled loops: a dead bus and ideal diodes short the primary, so that a charged tank rings freely. */
function shortedLoops({
  L1,
  C1,
  L2,
  C2,
  k,
}: {
  L1: number;
  C1: number;
  L2: number;
  C2: number;
  k: number;
}): BurstNetwork {
  return idealNetwork({
    bus: { voltage: 0, capacitorEach: 1e6, resistanceEach: 0 },
    primary: { inductance: L1, resistance: 0, tankCapacitance: C1 },
    modes: [
      {
        inductance: L2,
        capacitance: C2,
        resistance: 0,
        mutual: mutualOfCoupling({ coupling: k, primaryInductance: L1, modeInductance: L2 }),
      },
    ],
  });
}

describe("two lossless coupled loops", () => {
  // independent: closed form and root with mpmath (test/reference/coupled-resonators.json, losslessTransfer)
  test.each(of("losslessTransfer.peak"))("carry the tank's charge to the top: $value V", ({ inputs, value, time }) => {
    const { L1, C1, L2, C2, k, V0, window } = inputs as Record<
      "L1" | "C1" | "L2" | "C2" | "k" | "V0" | "window",
      number
    >;
    const network = shortedLoops({ L1, C1, L2, C2, k });
    const initial = { ...stateAtRest(network), tankVoltage: V0 };
    const burst = simulateBurst(network, { onTime: 0, burstEnd: "immediate", endTime: window, initial, heldOff: true });
    expect(burst.peakTopVoltage / value).toBeCloseTo(1, 9);
    expect(burst.peakTopVoltageTime / time).toBeCloseTo(1, 7);
    expect(Math.abs(burst.ledger.closure)).toBeLessThan(1e-12);
  });

  test("never bring more to the top than the tank held", () => {
    // law: v2 ≤ V0·√(C1/C2), the limit of lossless transfer, reached to 1 % in equal tune where the poles are in the ratio 6 : 7
    const L1 = 1e-5;
    const C1 = 1e-7;
    const L2 = 0.03;
    const C2 = (L1 * C1) / L2;
    const network = shortedLoops({ L1, C1, L2, C2, k: 0.15294117647058825 });
    const initial = { ...stateAtRest(network), tankVoltage: 300 };
    const burst = simulateBurst(network, { onTime: 0, burstEnd: "immediate", endTime: 2e-4, initial, heldOff: true });
    const limit = 300 * Math.sqrt(C1 / C2);
    expect(burst.peakTopVoltage).toBeLessThan(limit * (1 + 1e-9));
    expect(burst.peakTopVoltage).toBeGreaterThan(0.99 * limit);
  });

  // independent: beat of the two poles, closed form (same file, beat.period); equal tune, so that the transfer is complete
  test.each(of("beat.period").filter(({ inputs }) => inputs["f1"] === inputs["f2"] && inputs["k"]! < 0.3))(
    "empty the primary after half a beat: $transferTime s",
    ({ inputs, transferTime, value }) => {
      const omega = 2 * Math.PI * inputs["f1"]!;
      const L1 = 1e-5;
      const L2 = 0.03;
      const network = shortedLoops({ L1, C1: 1 / (omega ** 2 * L1), L2, C2: 1 / (omega ** 2 * L2), k: inputs["k"]! });
      const initial = { ...stateAtRest(network), tankVoltage: 300 };
      const burst = simulateBurst(network, {
        onTime: 0,
        burstEnd: "immediate",
        endTime: value,
        initial,
        heldOff: true,
      });
      const times = [0.1, 0.25, 0.5, 0.8, 1, 1.5].map((share) => share * transferTime);
      const { tankVoltage } = burst.waveforms!.sample(times);
      // exact: v1 = V0·(cos ω₋t + cos ω₊t)/2 in equal tune, nothing at half a beat whatever the phase of the carrier
      const lower = omega / Math.sqrt(1 + inputs["k"]!);
      const upper = omega / Math.sqrt(1 - inputs["k"]!);
      times.forEach((time, n) => {
        expect(tankVoltage[n]! / 300).toBeCloseTo((Math.cos(lower * time) + Math.cos(upper * time)) / 2, 9);
      });
      expect(Math.abs(tankVoltage[4]! / 300)).toBeLessThan(1e-9);
      expect(Math.abs(burst.peakTopVoltageTime - transferTime)).toBeLessThan(0.25 / inputs["f1"]!);
    },
  );
});

describe("a series tank alone under a bridge that switches at zero current", () => {
  const inductance = 1e-5;
  const tankCapacitance = 1e-7;
  const half = 150;
  const options = { burstEnd: "immediate" as const, waveforms: true };

  test.each([0.05, 0.4, 3])("rings up as the recursion of its half-cycles says, with %f Ω", (resistance) => {
    // exact: between zeros of the current v_C turns about ±E, |V'| = E + (E + |V|)·e^(−απ/ω), from V = 0
    const network = idealNetwork({ primary: { inductance, resistance, tankCapacitance } });
    const alpha = resistance / (2 * inductance);
    const omega = Math.sqrt(1 / (inductance * tankCapacitance) - alpha ** 2);
    const shrink = Math.exp((-alpha * Math.PI) / omega);
    const halfPeriod = Math.PI / omega;
    const burst = simulateBurst(network, { ...options, onTime: 20.5 * halfPeriod, endTime: 21 * halfPeriod });
    expect(burst.commutations).toHaveLength(20);
    const tank = burst.waveforms!.sample(burst.commutations).tankVoltage;
    let voltage = 0;
    burst.commutations.forEach((time, n) => {
      voltage = half + (half + (n === 0 ? 0 : voltage)) * shrink;
      expect(time / ((n + 1) * halfPeriod)).toBeCloseTo(1, 11);
      expect(Math.abs(tank[n]!) / voltage).toBeCloseTo(1, 10);
    });
  });

  test("settles at the first harmonic of the square over the resistance", () => {
    // exact limit: I → (4/π)·E/R for large Q (first harmonic of the square); at Q = 100 the other harmonics leave 0.1 %
    const resistance = 0.1;
    const network = idealNetwork({ primary: { inductance, resistance, tankCapacitance } });
    const onTime = 40 * ((2 * inductance) / resistance);
    const burst = simulateBurst(network, { ...options, onTime, endTime: onTime });
    expect(burst.peakPrimaryCurrent / (((4 / Math.PI) * half) / resistance)).toBeCloseTo(1, 3);
    // exact: the steady half-cycle, |V| = E·(1 + s)/(1 − s)
    const alpha = resistance / (2 * inductance);
    const omega = Math.sqrt(1 / (inductance * tankCapacitance) - alpha ** 2);
    const s = Math.exp((-alpha * Math.PI) / omega);
    expect(burst.peakTankVoltage / ((half * (1 + s)) / (1 - s))).toBeCloseTo(1, 9);
  });
});

describe("a ring-down", () => {
  // independent: Q from the decrement, mpmath (test/reference/coupled-resonators.json, q.fromDecrement)
  test.each(of("q.fromDecrement"))("of Q $value falls by its ratio in its cycles", ({ inputs, value }) => {
    const { amplitudeRatio, cycles } = inputs as { amplitudeRatio: number; cycles: number };
    const omega0 = 2 * Math.PI * 1e5;
    const inductance = 0.03;
    const network = usualNetwork({
      modes: [
        {
          inductance,
          capacitance: 1 / (omega0 ** 2 * inductance),
          resistance: (omega0 * inductance) / value,
          mutual: 0,
        },
      ],
    });
    const omegaD = omega0 * Math.sqrt(1 - 1 / (4 * value ** 2));
    const rest = stateAtRest(network);
    const initial = { ...rest, modes: [{ current: 0, voltage: 1e5 }] };
    const duration = (cycles * 2 * Math.PI) / omegaD;
    const burst = simulateBurst(network, {
      onTime: 0,
      burstEnd: "immediate",
      endTime: duration,
      initial,
      heldOff: true,
    });
    expect(1e5 / burst.finalState.modes[0]!.voltage / amplitudeRatio).toBeCloseTo(1, 10);
  });

  test("has the decay time 2L/R and the damped frequency", () => {
    // exact: free series R–L–C; its voltage in the primary stays below the bus, so that no diode conducts
    const network = usualNetwork();
    const { inductance, capacitance, resistance } = network.modes[0]!;
    const initial = { ...stateAtRest(network), modes: [{ current: 0, voltage: 3e4 }] };
    const burst = simulateBurst(network, { onTime: 0, burstEnd: "immediate", endTime: 4e-4, initial, heldOff: true });
    expect(burst.peakPrimaryCurrent).toBe(0);
    expect(burst.ringdownDecayTime! / ((2 * inductance) / resistance)).toBeCloseTo(1, 9);
    const omegaD = Math.sqrt(1 / (inductance * capacitance) - (resistance / (2 * inductance)) ** 2);
    expect(burst.ringdownFrequency! / (omegaD / (2 * Math.PI))).toBeCloseTo(1, 10);
  });
});
