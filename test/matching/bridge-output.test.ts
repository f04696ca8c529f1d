/** A bridge whose output floats after the drive: only the drive's own changes count. */
import { describe, expect, it } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import type { BenchRecord, ChannelRole } from "../../src/description/record.ts";
import { bridgeBurstsOf } from "../../src/matching/reading/bridge-output.ts";
import { readRecord } from "../../src/matching/record.ts";
import { usualNetwork } from "../burst/networks.ts";
import { chance } from "./two-resonators.ts";

const channel = (name: string, role: ChannelRole, samples: ArrayLike<number>) => ({
  name,
  role,
  unit: "V",
  samples: Float32Array.from(samples),
});

describe("the bridge of a computed burst", () => {
  const interval = 4e-8;
  const before = 500;
  const burstOf = (onTime: number, burstEnd: "immediate" | "synchronous", deadTime = 2e-7) =>
    simulateBurst({ ...usualNetwork(), deadTime }, { onTime, burstEnd, endTime: 2.5 * onTime });
  const recordOf = (burst: ReturnType<typeof burstOf>, quiet: number): BenchRecord => {
    const { primaryCurrent, driveVoltage } = burst.waveforms!.sample(
      Float64Array.from({ length: Math.floor(burst.at / interval) }, (_, n) => n * interval),
    );
    const rest = new Array<number>(quiet).fill(0);
    const channels = [
      channel("primary current", "primaryCurrent", [...rest, ...primaryCurrent]),
      channel("bridge", "bridgeOutput", [...rest, ...driveVoltage]),
    ];
    return { name: "", start: 0, interval, length: channels[0]!.samples.length, channels };
  };

  it.each([
    [1e-4, "immediate", 2e-7],
    [1.137e-4, "immediate", 2e-7],
    [1e-4, "synchronous", 2e-7],
    [8.31e-5, "immediate", 4e-7],
    [6.2e-5, "synchronous", 0],
  ] as const)("driven for %f s with an end that is %s and a dead time of %f s", (onTime, burstEnd, deadTime) => {
    // law: the on-time and the end that the burst was set to, and the instants at which its own gates changed
    const burst = burstOf(onTime, burstEnd, deadTime);
    for (const quiet of [before, 0]) {
      const { onTime: read, carrier } = readRecord(recordOf(burst, quiet));
      expect(read?.is.by).toBe("bridge");
      expect(read!.is.estimate.value / burst.gatesOffTime!).toBeGreaterThan(1 - 0.25 / burst.halfCycles);
      expect(read!.is.estimate.value / burst.gatesOffTime!).toBeLessThan(1 + 0.25 / burst.halfCycles);
      expect(read!.is.estimate.low).toBeLessThan(burst.gatesOffTime!);
      expect(read!.is.estimate.high).toBeGreaterThan(burst.gatesOffTime!);
      expect(carrier?.channel).toBe(1);
      expect(Math.abs(carrier!.is.value / burst.meanFrequency! - 1)).toBeLessThan(3e-3);
      expect(carrier!.is.low).toBeLessThan(burst.meanFrequency!);
      expect(carrier!.is.high).toBeGreaterThan(burst.meanFrequency!);
    }
  });
});

describe("a bridge laid out by hand", () => {
  const half = 31.7;
  /** From rest to 24.x half-cycles of drive, diodes half a cycle off it for six longer ones, then a tank that dies away under the rails. */
  const samplesOf = (halves: number, seed: number, hops = 0) => {
    const random = chance(seed);
    const start = 200.4;
    const end = start + halves * half;
    const whole = Math.floor(halves);
    const driven = (count: number) => (count % 2 === 0 ? 1 : -1);
    const zero = start + (whole + 1) * half;
    return Float32Array.from({ length: 2400 }, (_, n) => {
      const noise = 0.02 * random.normal();
      if (n < start) return noise;
      if (n < end) {
        const count = Math.floor((n - start) / half);
        const since = n - start - count * half;
        // Dead time: the output is at the new rail, back at the old one, then at the new one for good.
        const back = count > 0 && since > hops / 3 && since < hops;
        return noise + driven(count) * (back ? -1 : 1);
      }
      if (n < zero) return noise - driven(whole);
      const since = (n - zero) / (1.12 * half);
      if (since < 6) return noise + driven(whole + Math.floor(since));
      return noise + 0.85 * Math.sin(Math.PI * since) * Math.exp(-(since - 6) / 8);
    });
  };

  it.each([
    [24.05, 0],
    [24.5, 0],
    [21.3, 0],
    [22.7, 6],
    [25.93, 6],
    [30.61, 4],
  ])("driven for %f half-cycles, hopping back for %f samples", (halves, hops) => {
    // independent: the lengths it is laid out with
    for (let seed = 1; seed < 6; seed++) {
      const [burst, ...others] = bridgeBurstsOf(samplesOf(halves, seed, hops));
      expect(others).toEqual([]);
      expect(Math.abs(burst!.from - 200.4)).toBeLessThan(1);
      expect(Math.abs(burst!.to - burst!.from - halves * half)).toBeLessThan(0.1 * half);
      const count = burst!.commutations.length;
      // A change that the end follows at once is part of the end.
      expect(count).toBe(Math.floor(halves - 0.1));
      expect((burst!.commutations.at(-1)! - burst!.commutations[0]!) / (count - 1)).toBeCloseTo(half, 0);
    }
  });

  it("that the record begins or ends inside of gives a carrier and no on-time", () => {
    const samples = samplesOf(24.5, 1);
    const read = (part: Float32Array) =>
      readRecord({
        name: "",
        start: 0,
        interval: 1e-7,
        length: part.length,
        channels: [channel("bridge", "bridgeOutput", part)],
      });
    for (const part of [samples.subarray(300), samples.subarray(0, 700)]) {
      const { onTime, carrier } = read(part);
      expect(onTime).toBeUndefined();
      expect(Math.abs(carrier!.is.value * 2 * half * 1e-7 - 1)).toBeLessThan(5e-3);
    }
  });
});
