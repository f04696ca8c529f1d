import { describe, expect, it } from "vitest";
import { study } from "../../src/workbench/burst-stage.ts";
import { figureOf, lantern, lanternSolved, pointVoltage } from "./burst-coils.ts";

const found = study(lantern, lanternSolved, { breakoutVoltage: pointVoltage }, { waveforms: true });
const waveforms = found.waveforms!;

describe("the waveforms of a study", () => {
  it("are all of one length and in order of time", () => {
    const { energy, ...rest } = waveforms;
    for (const values of [...Object.values(rest), ...Object.values(energy)]) {
      expect(values.length).toBe(waveforms.time.length);
      for (const value of values) expect(Number.isFinite(value)).toBe(true);
    }
    for (let n = 1; n < waveforms.time.length; n++) expect(waveforms.time[n]!).toBeGreaterThan(waveforms.time[n - 1]!);
  });

  it("reach the peaks that the figures name", () => {
    // law: samples never pass an exact maximum, and 28 a cycle come within 1 % of it
    const peak = (values: Float64Array) => values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    for (const [values, id] of [
      [waveforms.primaryCurrent, "burst.peakPrimaryCurrent"],
      [waveforms.topVoltage, "burst.peakTopVoltage"],
      [waveforms.tankVoltage, "burst.peakTankVoltage"],
    ] as const) {
      expect(peak(values)).toBeLessThanOrEqual(figureOf(found, id) * (1 + 1e-9));
      expect(peak(values)).toBeGreaterThan(0.99 * figureOf(found, id));
    }
  });

  it("keep the ledger closed at every time, and end at the figures", () => {
    // law: conservation of energy
    const { energy } = waveforms;
    const last = waveforms.time.length - 1;
    const drawn = figureOf(found, "burst.energyDrawn");
    for (let n = 0; n <= last; n++) {
      const spent =
        energy.switches[n]! +
        energy.diodes[n]! +
        energy.bus[n]! +
        energy.primary[n]! +
        energy.tank[n]! +
        energy.secondary[n]! +
        energy.streamer[n]! +
        energy.stored[n]!;
      expect(Math.abs(energy.drawn[n]! - energy.returned[n]! - spent)).toBeLessThan(1e-12 + 1e-9 * drawn);
      expect(energy.stored[n]!).toBeGreaterThan(-0.02 * drawn);
    }
    for (const part of ["switches", "diodes", "bus", "primary", "tank", "secondary", "streamer"] as const)
      expect(energy[part][last]!).toBeCloseTo(figureOf(found, `burst.energy.${part}`), 9);
    expect(energy.stored[last]!).toBeCloseTo(figureOf(found, "burst.energy.stored"), 5);
  });

  it("never drive both sides, and let the current take the branch that its sign and the gates allow", () => {
    // law: the switching rule
    waveforms.time.forEach((_, n) => {
      expect(waveforms.gateUpper[n]! * waveforms.gateLower[n]!).toBe(0);
      const current = waveforms.primaryCurrent[n]!;
      const branch = waveforms.conducting[n]!;
      if (current > 0) expect([1, 4]).toContain(branch);
      else if (current < 0) expect([2, 3]).toContain(branch);
      else expect(branch).toBe(0);
    });
  });

  it("have their strongest line where the bridge switches", () => {
    // independent: the Fourier transform of the samples against the count of commutations
    const { frequency, amplitude } = found.spectrum;
    const strongest = amplitude.indexOf(Math.max(...amplitude));
    const apart = frequency[1]!;
    expect(Math.abs(frequency[strongest]! - figureOf(found, "burst.frequency"))).toBeLessThan(2 * apart);
  });

  it("are not made where nobody asks", () => {
    const plain = study(lantern, lanternSolved, { breakoutVoltage: pointVoltage });
    expect(plain.waveforms).toBeUndefined();
    expect(plain.spectrum.frequency.length).toBe(0);
    expect(plain.figures).toEqual(found.figures);
  });
});
