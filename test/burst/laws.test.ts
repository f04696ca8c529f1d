import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type BurstOptions, simulateBurst } from "../../src/burst/burst.ts";
import { rechargedBus, rest, runBurst } from "../../src/burst/train.ts";
import type { BurstNetwork } from "../../src/circuit/network.ts";
import { type CircuitState, stateAtRest } from "../../src/circuit/state.ts";
import { anyNetwork, usualNetwork } from "./networks.ts";
import { networkOf, openCases, pulseOf } from "./open-cases.ts";

const seed = 20260103;

const anyPulse: fc.Arbitrary<BurstOptions> = fc.record({
  onTime: fc.double({ min: 2e-5, max: 2e-4, noNaN: true }),
  burstEnd: fc.constantFrom("immediate" as const, "synchronous" as const),
  endTime: fc.constant(3e-4),
});

function expectClose(state: CircuitState, expected: CircuitState, share: number): void {
  const scale = Math.abs(expected.tankVoltage) + expected.busUpper + expected.busLower;
  expect(Math.abs(state.tankVoltage - expected.tankVoltage)).toBeLessThan(share * scale);
  expect(Math.abs(state.busUpper - expected.busUpper)).toBeLessThan(share * scale);
  expect(Math.abs(state.busLower - expected.busLower)).toBeLessThan(share * scale);
  expected.modes.forEach(({ voltage }, m) => {
    expect(Math.abs(state.modes[m]!.voltage - voltage)).toBeLessThan(share * (Math.abs(voltage) + 1e4));
  });
}

describe("any burst", () => {
  test("closes its ledger", () => {
    // law: conservation of energy, for one to three modes, both bridges, every drive, with and without streamer
    fc.assert(
      fc.property(anyNetwork, anyPulse, (network, pulse) => {
        const burst = simulateBurst(network, pulse);
        expect(burst.reached).toBe("endTime");
        expect(Math.abs(burst.ledger.closure)).toBeLessThan(1e-10);
        const { storedAtStart, closure, ...spent } = burst.ledger;
        for (const value of Object.values(spent)) expect(value).toBeGreaterThanOrEqual(0);
        expect(burst.energyDrawn).toBeGreaterThanOrEqual(burst.energyReturned - 1e-12);
      }),
      { seed, numRuns: 80 },
    );
  });

  test("does not depend on how long its steps are", () => {
    // law: the steps cut an exact solution into pieces
    fc.assert(
      fc.property(anyNetwork, anyPulse, (network, pulse) => {
        const burst = simulateBurst(network, pulse);
        const again = simulateBurst(network, { ...pulse, limits: { stepAngle: 0.6 } });
        expect(again.halfCycles).toBe(burst.halfCycles);
        expect(again.peakPrimaryCurrent / burst.peakPrimaryCurrent).toBeCloseTo(1, 8);
        expect(again.peakTopVoltage / burst.peakTopVoltage).toBeCloseTo(1, 8);
        expectClose(again.finalState, burst.finalState, 1e-7);
      }),
      { seed, numRuns: 25 },
    );
  });

  test("shows in its waveforms the peaks that it reports, and none above", () => {
    // law: the peak is the greatest of the waveform
    fc.assert(
      fc.property(anyNetwork, anyPulse, (network, pulse) => {
        const burst = simulateBurst(network, pulse);
        const waveforms = burst.waveforms!;
        const at = waveforms.sample([
          burst.peakPrimaryCurrentTime,
          burst.peakTankVoltageTime,
          burst.peakTopVoltageTime,
        ]);
        expect(Math.abs(at.primaryCurrent[0]!) / burst.peakPrimaryCurrent).toBeCloseTo(1, 9);
        expect(Math.abs(at.tankVoltage[1]!) / burst.peakTankVoltage).toBeCloseTo(1, 9);
        expect(Math.abs(at.topVoltage[2]!) / burst.peakTopVoltage).toBeCloseTo(1, 9);
        const grid = waveforms.sample(Float64Array.from({ length: 2000 }, (_, n) => (n * waveforms.end) / 1999));
        const greatest = (row: Float64Array): number => row.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
        expect(greatest(grid.primaryCurrent)).toBeLessThanOrEqual(burst.peakPrimaryCurrent * (1 + 1e-12));
        expect(greatest(grid.tankVoltage)).toBeLessThanOrEqual(burst.peakTankVoltage * (1 + 1e-12));
        expect(greatest(grid.topVoltage)).toBeLessThanOrEqual(burst.peakTopVoltage * (1 + 1e-12));
      }),
      { seed, numRuns: 25 },
    );
  });
});

describe("waveforms", () => {
  test("do not depend on the order in which they are asked for, and end in the final state", () => {
    const burst = simulateBurst(usualNetwork(), { onTime: 1e-4, burstEnd: "immediate", endTime: 2e-4 });
    const waveforms = burst.waveforms!;
    const times = [2e-4, 0, 7.3e-5, 1e-4, 1.9e-4];
    const { topVoltage, primaryCurrent, busUpper } = waveforms.sample(times);
    times.forEach((time, n) => {
      expect(waveforms.sample([time]).topVoltage[0]).toBe(topVoltage[n]);
    });
    expect(topVoltage[0]).toBeCloseTo(burst.finalState.modes[0]!.voltage, 6);
    expect(busUpper[0]).toBeCloseTo(burst.finalState.busUpper, 9);
    expect([primaryCurrent[1], topVoltage[1], busUpper[1]]).toEqual([0, 0, 162.5]);
    const stepTimes = waveforms.stepTimes();
    expect([stepTimes[0], stepTimes.at(-1), stepTimes.length]).toEqual([0, burst.at, burst.steps + 1]);
  });

  test("show across the load what the branch in force offers", () => {
    // law: drive = L_p·i′ + M·i_m′ + R_p·i + v_C, the derivatives from differences of the waveforms
    const network = usualNetwork();
    const waveforms = simulateBurst(network, { onTime: 1e-4, burstEnd: "immediate", endTime: 2e-4 }).waveforms!;
    const step = 1e-10;
    for (const time of [3.1e-5, 5.2e-5, 9.05e-5, 1.02e-4]) {
      const {
        primaryCurrent: i,
        secondaryCurrent: s,
        tankVoltage,
        driveVoltage,
      } = waveforms.sample([time - step, time, time + step]);
      const slope = (row: Float64Array): number => (row[2]! - row[0]!) / (2 * step);
      const { inductance, resistance } = network.primary;
      const load = inductance * slope(i) + network.modes[0]!.mutual * slope(s) + resistance * i[1]! + tankVoltage[1]!;
      expect(Math.abs(load - driveVoltage[1]!)).toBeLessThan(0.05);
    }
  });
});

describe("the circuit", () => {
  test("is linear: everything with volts and amperes doubled gives everything doubled", () => {
    // law: homogeneity of degree one in all sources, drops and thresholds
    const network = { ...usualNetwork(), streamer: { breakoutVoltage: 9e4, resistance: 2e5, capacitance: 4e-12 } };
    const doubled: BurstNetwork = {
      ...network,
      bus: { ...network.bus, voltage: 2 * network.bus.voltage },
      switch: { vce0: 1.9, rce: 0.014, diode: { vf0: 1.8, rd: 0.012 } },
      feedback: { ...network.feedback, threshold: 2 },
      streamer: { ...network.streamer, breakoutVoltage: 1.8e5 },
    };
    const pulse = { onTime: 1e-4, burstEnd: "synchronous" as const, endTime: 2e-4 };
    const one = simulateBurst(network, pulse);
    const two = simulateBurst(doubled, pulse);
    expect(two.peakPrimaryCurrent / one.peakPrimaryCurrent).toBeCloseTo(2, 9);
    expect(two.peakTopVoltage / one.peakTopVoltage).toBeCloseTo(2, 9);
    expect(two.energyDrawn / one.energyDrawn).toBeCloseTo(4, 9);
    expect(two.gatesOffTime).toBeCloseTo(one.gatesOffTime!, 14);
    expect(two.breakoutTime).toBeCloseTo(one.breakoutTime!, 14);
  });

  test("has no time of its own: L, C and every time stretched together stretch the burst", () => {
    // law: similarity, L, M, C and times × 3 at the same resistances keep all voltages and currents
    const network = usualNetwork();
    const slow: BurstNetwork = {
      ...network,
      bus: { ...network.bus, capacitorEach: 3 * network.bus.capacitorEach },
      deadTime: 3 * network.deadTime,
      primary: {
        inductance: 3 * network.primary.inductance,
        resistance: network.primary.resistance,
        tankCapacitance: 3 * network.primary.tankCapacitance,
      },
      modes: network.modes.map(({ inductance, capacitance, resistance, mutual }) => ({
        inductance: 3 * inductance,
        capacitance: 3 * capacitance,
        resistance,
        mutual: 3 * mutual,
      })),
      feedback: { ...network.feedback, lead: 3 * network.feedback.lead, delay: 3 * network.feedback.delay },
    };
    const one = simulateBurst(network, { onTime: 1e-4, burstEnd: "immediate", endTime: 2e-4 });
    const three = simulateBurst(slow, { onTime: 3e-4, burstEnd: "immediate", endTime: 6e-4 });
    expect(three.halfCycles).toBe(one.halfCycles);
    expect(three.peakPrimaryCurrent / one.peakPrimaryCurrent).toBeCloseTo(1, 9);
    expect(three.peakTopVoltage / one.peakTopVoltage).toBeCloseTo(1, 9);
    expect(three.meanFrequency! / one.meanFrequency!).toBeCloseTo(1 / 3, 10);
    expect(three.energyDrawn / one.energyDrawn).toBeCloseTo(3, 9);
  });

  test("is the same with a mode split off that nothing couples to, in whatever order the modes stand", () => {
    // law: an uncoupled mode stays at rest; the sum over modes has no order
    const network = usualNetwork();
    const [first] = network.modes;
    const idle = { inductance: 0.02, capacitance: 1e-11, resistance: 100, mutual: 0 };
    const second = { inductance: 0.03, capacitance: 6e-12, resistance: 300, mutual: -4e-5 };
    const pulse = { onTime: 1e-4, burstEnd: "immediate" as const, endTime: 2e-4 };
    const alone = simulateBurst(network, pulse);
    const beside = simulateBurst({ ...network, modes: [idle, first!] }, pulse);
    expect(beside.peakTopVoltage / alone.peakTopVoltage).toBeCloseTo(1, 9);
    expect(beside.currentAtGatesOff! / alone.currentAtGatesOff!).toBeCloseTo(1, 8);
    const ab = simulateBurst({ ...network, modes: [first!, second] }, pulse);
    const ba = simulateBurst({ ...network, modes: [second, first!] }, pulse);
    expect(ab.peakTopVoltage / ba.peakTopVoltage).toBeCloseTo(1, 9);
    expect(ab.peakPrimaryCurrent / ba.peakPrimaryCurrent).toBeCloseTo(1, 9);
    expect(Math.abs(ab.peakTopVoltage / alone.peakTopVoltage - 1)).toBeGreaterThan(1e-3);
  });
});

describe("bursts one after the other", () => {
  test.each(openCases.filter(({ parameters }) => parameters.spark === null))(
    "of $parameters.id: a burst cut in its ring-down goes on as if it had not been cut",
    (openCase) => {
      // law: the state is all that the circuit remembers
      const network = networkOf(openCase);
      const whole = simulateBurst(network, pulseOf(openCase));
      const cut = (whole.gatesOffTime! * 3 + whole.at) / 4;
      const first = simulateBurst(network, { ...pulseOf(openCase), endTime: cut });
      const state = rest({ network, state: first.finalState, duration: whole.at - cut });
      expectClose(state, whole.finalState, 1e-9);
    },
  );

  test("do not feel when they are: the second burst after a long rest is the first again", () => {
    // law: nothing depends on the time of day; after 10 ms of rest with the bus put back only the charge on the tank is left
    const network = usualNetwork();
    const pulse = { onTime: 1e-4, burstEnd: "immediate" as const, endTime: 2e-4, period: 1e-2 };
    const first = runBurst({ network, pulse, memory: { state: stateAtRest(network), heldOffFor: 0 } });
    const settled = first.memory.state;
    expect(Math.abs(settled.modes[0]!.voltage)).toBeLessThan(1e-2);
    expect(settled.primaryCurrent).toBe(0);
    const voltage = network.bus.voltage;
    const again = rechargedBus({ state: { ...settled, tankVoltage: 0 }, voltage, separately: true });
    const second = runBurst({ network, pulse, memory: { state: again, heldOffFor: 0 } });
    expect(second.result.peakPrimaryCurrent / first.result.peakPrimaryCurrent).toBeCloseTo(1, 6);
    const tired = runBurst({ network, pulse, memory: first.memory });
    expect(tired.result.peakPrimaryCurrent).not.toBeCloseTo(first.result.peakPrimaryCurrent, 2);
    expect(tired.result.energyDrawn).toBeLessThan(first.result.energyDrawn);
    expect(Math.abs(tired.result.ledger.closure)).toBeLessThan(1e-12);
  });

  test("rest the same in one stride as in many", () => {
    // independent: one matrix exponential against steps of the series
    const network = usualNetwork();
    const { finalState } = simulateBurst(network, { onTime: 1e-4, burstEnd: "immediate", endTime: 1.5e-4 });
    let state = finalState;
    for (let n = 0; n < 40; n++)
      state = simulateBurst(network, {
        onTime: 0,
        burstEnd: "immediate",
        endTime: 2.5e-5,
        initial: state,
        heldOff: true,
      }).finalState;
    expectClose(rest({ network, state: finalState, duration: 1e-3 }), state, 1e-10);
  });

  test("share the recharge as one current through both capacitors, or each by itself", () => {
    const state = { ...stateAtRest(usualNetwork()), busUpper: 150, busLower: 130 };
    expect(rechargedBus({ state, voltage: 320, separately: false })).toMatchObject({ busUpper: 170, busLower: 150 });
    expect(rechargedBus({ state, voltage: 320, separately: true })).toMatchObject({ busUpper: 160, busLower: 160 });
  });
});
