/**
 * independent: three bursts by a general-purpose circuit simulator, step-converged, with an estimate of its own error beside each
 * figure (test/reference/burst-open-cases.json, netlists in test/reference/burst-netlists). Tolerances: 0.02 % of the peaks and
 * 0.01 % of the frequency, or three times the reference's own error where that is larger; quantities that pass through zero are
 * judged against the scale of their kind. Three times, because the reference says that where it was followed, the part of its
 * error left over was about as large as the difference it states.
 */
import { describe, expect, test } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import { networkOf, openCases, pulseOf } from "./open-cases.ts";

/** Measured against the reference: this far or nearer, of the scale. */
const peakShare = 2e-4;
const energyShare = 2e-4;
const frequencyShare = 1e-4;

function expectNear(value: number | undefined, reference: number, allowance: number): void {
  expect(value).toBeDefined();
  expect(Math.abs(value! - reference)).toBeLessThanOrEqual(allowance);
}

describe.each(openCases)("the open case $parameters.id", (openCase) => {
  const { results: r, numericalError: error } = openCase;
  const burst = simulateBurst(networkOf(openCase), pulseOf(openCase));
  const halfCycle = 0.5 / r.meanFrequency;
  const within = (share: number, scale: number, key: string): number =>
    Math.max(share * Math.abs(scale), 3 * (error[key] ?? 0));

  test("comes to its end", () => {
    expect(burst.reached).toBe("endTime");
    expect(burst.remarks).toEqual([]);
  });

  test("has the reference's peaks", () => {
    expectNear(burst.peakPrimaryCurrent, r.peakPrimaryCurrent, within(peakShare, r.peakPrimaryCurrent, ""));
    expectNear(burst.peakTankVoltage, r.peakTankVoltage, within(peakShare, r.peakTankVoltage, ""));
    expectNear(burst.peakTopVoltage, r.peakTopVoltage, within(peakShare, r.peakTopVoltage, ""));
    expectNear(burst.peakPrimaryCurrentTime, r.peakPrimaryCurrentTime, 2e-3 * halfCycle);
    expectNear(burst.peakTopVoltageTime, r.peakTopVoltageTime, 2e-3 * halfCycle);
  });

  test("commutates when the reference does", () => {
    expect(burst.commutations).toHaveLength(r.commutations);
    expect(burst.halfCycles).toBe(r.halfCycles);
    for (const [k, time] of r.firstCommutations.entries()) expectNear(burst.commutations[k], time, 2e-3 * halfCycle);
    expectNear(burst.commutations.at(-1), r.lastCommutation, 2e-3 * halfCycle);
    expectNear(burst.meanFrequency, r.meanFrequency, within(frequencyShare, r.meanFrequency, "meanFrequency"));
    expectNear(burst.gatesOffTime, r.gatesOffTime, 2e-3 * halfCycle);
    expectNear(burst.currentAtGatesOff, r.currentAtGatesOff, within(peakShare, r.peakPrimaryCurrent, ""));
  });

  test("has the reference's envelope, its first maximum and its notch", () => {
    expect(burst.envelope).toHaveLength(r.envelope.length);
    r.envelope.forEach(([time, current], k) => {
      expectNear(burst.envelope[k]!.time, time, 2e-3 * halfCycle);
      expectNear(burst.envelope[k]!.current, current, within(peakShare, current, "envelope.current"));
    });
    expectNear(burst.firstEnvelopeMaximum?.time, r.firstEnvelopeMaximum.time, 2e-3 * halfCycle);
    if (r.notch) expectNear(burst.notch?.time, r.notch.time, 2e-3 * halfCycle);
    else expect(burst.notch).toBeUndefined();
  });

  test("has the reference's waveforms at eight moments", () => {
    const samples = burst.waveforms!.sample(r.samples.map(([time]) => time));
    r.samples.forEach(([, current, tank, top], k) => {
      expectNear(samples.primaryCurrent[k], current, peakShare * r.peakPrimaryCurrent);
      expectNear(samples.tankVoltage[k], tank, 3 * peakShare * r.peakTankVoltage);
      expectNear(samples.topVoltage[k], top, 2 * peakShare * r.peakTopVoltage);
    });
  });

  test("has the reference's energies", () => {
    const share = (key: string): number => within(energyShare, r.energyDrawn, key);
    expectNear(burst.energyDrawn, r.energyDrawn, share("energyDrawn"));
    expectNear(burst.energyReturned, r.energyReturned, share("energyReturned"));
    expectNear(burst.energyNet, r.energyNetFromBusCapacitors, share("energyNetFromBusCapacitors"));
    const { ledger } = burst;
    for (const key of ["switches", "diodes", "busEsr", "primary", "secondary"] as const)
      expectNear(ledger[key], r.ledger[key]!, within(7e-4, r.ledger[key]!, `ledger.${key}`));
    expectNear(
      ledger.streamer,
      r.ledger["streamer"] ?? 0,
      within(energyShare, r.ledger["streamer"] ?? 0, "ledger.streamer"),
    );
    expectNear(ledger.storedAtEnd, r.ledger["storedAtEnd"]!, share("ledger.storedAtEnd"));
    expectNear(burst.busVoltageAtEnd, r.busVoltageAtEnd, within(1e-5, r.busVoltageAtEnd, "busVoltageAtEnd"));
    expectNear(burst.busSag, r.busSag, within(1e-4, r.busSag, "busVoltageAtEnd"));
    expectNear(burst.tankVoltageAtEnd, r.tankVoltageAtEnd, within(3e-4, r.peakTankVoltage, "tankVoltageAtEnd"));
  });

  test("closes its ledger to a millionth of a millionth", () => {
    // law: energy is conserved; measured 4e-15
    expect(Math.abs(burst.ledger.closure)).toBeLessThan(1e-12);
  });

  test("goes quiet and rings down as the reference does", () => {
    expectNear(burst.primaryQuietTime, r.primaryQuietTime, 3e-3 * halfCycle);
    expectNear(burst.ringdownDecayTime, r.ringdownDecayTime, 2e-5 * r.ringdownDecayTime);
    expectNear(burst.ringdownFrequency, r.ringdownFrequency, 1e-6 * r.ringdownFrequency);
    if (r.breakoutTime === undefined) expect(burst.breakoutTime).toBeUndefined();
    else expectNear(burst.breakoutTime, r.breakoutTime, 2e-3 * halfCycle);
  });

  test("does not move when the steps are cut to a third or stretched to twice as long", () => {
    // law: the series is exact, so the step is no more than a place to stop and look; measured below 1e-12
    for (const stepAngle of [0.4, 2.6]) {
      const again = simulateBurst(networkOf(openCase), { ...pulseOf(openCase), limits: { stepAngle } });
      expect(again.halfCycles).toBe(burst.halfCycles);
      expectNear(again.peakPrimaryCurrent, burst.peakPrimaryCurrent, 1e-10 * burst.peakPrimaryCurrent);
      expectNear(again.peakTopVoltage, burst.peakTopVoltage, 1e-10 * burst.peakTopVoltage);
      expectNear(again.energyReturned, burst.energyReturned, 1e-10 * burst.energyReturned);
      expectNear(again.tankVoltageAtEnd, burst.tankVoltageAtEnd, 1e-9 * burst.peakTankVoltage);
      expectNear(again.ledger.secondary, burst.ledger.secondary, 1e-10 * burst.ledger.secondary);
    }
  });
});
