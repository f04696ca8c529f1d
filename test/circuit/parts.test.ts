import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  burdenVoltage,
  currentTransformerFlux,
  currentTransformerLead,
} from "../../src/circuit/current-transformer.ts";
import { gateChargePower, gateFlux, gateMagnetisingCurrent } from "../../src/circuit/gate-drive.ts";
import {
  type FosterTerm,
  steadyTrainRise,
  thermalStep,
  transientImpedance,
} from "../../src/circuit/thermal-network.ts";

const seed = 20260106;

describe("the gate-drive transformer", () => {
  test("swings its flux as in the example", () => {
    // independent: formula evaluated elsewhere (test/reference/parts.json, "gate transformer example": 85.227 mT)
    const flux = gateFlux({ drive: 15, frequency: 200e3, turns: 11, coreArea: 40e-6 });
    expect(flux.swing * 1e3).toBeCloseTo(85.227, 3);
    expect(flux.steady).toBe(flux.swing / 2);
  });

  test("has a magnetising current that belongs to its flux", () => {
    // law: N·A·B = L·i at every moment
    const [turns, coreArea, inductance] = [11, 40e-6, 250e-6];
    const { steady } = gateFlux({ drive: 15, frequency: 2e5, turns, coreArea });
    const current = gateMagnetisingCurrent({ drive: 15, frequency: 2e5, inductance });
    expect((turns * coreArea * steady) / (inductance * current)).toBeCloseTo(1, 12);
  });

  test("passes the charge of the gates", () => {
    // law: by hand, 190 nC through 30 V at 200 kHz for 4 % of the time
    expect(gateChargePower({ charge: 190e-9, swing: 30, frequency: 2e5, duty: 0.04 })).toBeCloseTo(0.0456, 12);
    expect(() => gateFlux({ drive: 15, frequency: 0, turns: 11, coreArea: 4e-5 })).toThrow("frequency");
  });
});

describe("the current transformer", () => {
  test("gives the burden its voltage as in the example", () => {
    // independent: formula evaluated elsewhere (test/reference/parts.json, "burden example": 0.816 V)
    expect(burdenVoltage({ current: 160, ratio: 1000, burden: 5.1 })).toBeCloseTo(0.816, 12);
    expect(() => burdenVoltage({ current: 160, ratio: 0, burden: 5.1 })).toThrow("ratio");
  });

  test("has a flux and a lead that belong to each other", () => {
    // law: magnetising current = N·A·B/L_m; its share of the secondary current is the tangent of the lead
    const core = { ratio: 1000, burden: 5.1, windingResistance: 20, frequency: 1.5e5 };
    const magnetisingInductance = 0.2;
    const flux = currentTransformerFlux({ ...core, current: 160, coreArea: 1e-4 });
    const magnetising = (core.ratio * 1e-4 * flux) / magnetisingInductance;
    const lead = currentTransformerLead({ ...core, magnetisingInductance });
    expect(Math.tan(lead)).toBeCloseTo(magnetising / 0.16, 12);
    expect(lead).toBeLessThan(0.001);
  });
});

describe("the thermal network", () => {
  const terms: readonly FosterTerm[] = [
    [0.12, 1e-3],
    [0.25, 20e-3],
  ];

  test("peaks in a train of bursts as in the example", () => {
    // independent: formula evaluated elsewhere (test/reference/parts.json, "example of the above": 25.097 K)
    const rise = steadyTrainRise({ terms: [[0.12, 1e-3]], power: 2000, onTime: 110e-6, period: 1 / 180 });
    expect(rise).toBeCloseTo(25.097, 3);
  });

  test("steps to the same peak, burst by burst", () => {
    // independent: the step-by-step form, run until the train is steady
    let rises: ArrayLike<number> = [0, 0];
    let peak = 0;
    for (let n = 0; n < 100; n++) {
      rises = thermalStep({ terms, rises, power: 2000, duration: 110e-6 });
      peak = rises[0]! + rises[1]!;
      rises = thermalStep({ terms, rises, power: 0, duration: 1 / 180 - 110e-6 });
    }
    expect(peak / steadyTrainRise({ terms, power: 2000, onTime: 110e-6, period: 1 / 180 })).toBeCloseTo(1, 10);
  });

  test("does not mind in how many steps a stretch is taken, and heats by its transient impedance", () => {
    // law: exponentials compose; from cold, a step of power heats by P·Z(t)
    fc.assert(
      fc.property(
        fc.double({ min: 1e-6, max: 0.1, noNaN: true }),
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        (duration, share) => {
          const rises = [3, 5];
          const whole = thermalStep({ terms, rises, power: 700, duration });
          const half = thermalStep({ terms, rises, power: 700, duration: share * duration });
          const both = thermalStep({ terms, rises: half, power: 700, duration: (1 - share) * duration });
          expect(both[0]).toBeCloseTo(whole[0]!, 9);
          expect(both[1]).toBeCloseTo(whole[1]!, 9);
          const cold = thermalStep({ terms, rises: [0, 0], power: 700, duration });
          expect(cold[0]! + cold[1]!).toBeCloseTo(700 * transientImpedance({ terms, time: duration }), 9);
        },
      ),
      { seed, numRuns: 100 },
    );
  });

  test("comes, in a train without pause, to the steady impedance", () => {
    // exact limit: on-time = period gives P·Σr
    expect(steadyTrainRise({ terms, power: 100, onTime: 1e-3, period: 1e-3 })).toBeCloseTo(37, 12);
    expect(() => steadyTrainRise({ terms, power: 100, onTime: 1e-3, period: 1e-4 })).toThrow("period");
    expect(() => thermalStep({ terms, rises: [0], power: 1, duration: 1 })).toThrow("one rise");
    expect(() => transientImpedance({ terms: [[0.1, 0]], time: 1 })).toThrow("τ");
  });
});
