import { describe, expect, it } from "vitest";
import {
  acousticShare,
  crestOfClicks,
  distanceOfFullDose,
  soundLevel,
  timeToFullDose,
} from "../../src/safety/index.ts";
import { entry, numberOf, numbersOf } from "./reference.ts";

describe("soundLevel", () => {
  // independent: LW = 10 lg(ηP/1 pW), Lp = LW − 11 − 20 lg r; 200 W at a share of 10⁻³ is 102 dB at 1 m
  it("of 200 W is 102 dB at 1 m, ten either way", () => {
    const level = (share: number) => soundLevel({ power: 200, share, distance: 1, spread: "free" });
    expect(level(acousticShare.middle)).toBeCloseTo(numberOf("noise", "level at 1 m, free field"), 1);
    const { low, mid, high } = entry("noise", "acoustic share of spark energy").value as Record<string, number>;
    expect(acousticShare).toEqual({ low, middle: mid, high });
    expect([level(low!), level(high!)].map(Math.round)).toEqual([92, 112]);
  });

  // law: 6 dB for each doubling of the distance; a hard floor adds 3 dB
  it("falls by 6 dB for each doubling and gains 3 dB over a floor", () => {
    const at = (distance: number, spread: "free" | "floor" = "free") =>
      soundLevel({ power: 50, share: 1e-3, distance, spread });
    expect(at(2) - at(4)).toBeCloseTo(6.02, 2);
    expect(at(3, "floor") - at(3)).toBeCloseTo(3, 9);
    expect(() => at(0)).toThrow("must be positive");
  });
});

describe("timeToFullDose", () => {
  // published: NIOSH 98-126, recommended exposure limit, T = 480 min/2^((L − 85)/3); its worked example: 15 min at 100 dB(A)
  it("is NIOSH's", () => {
    expect(timeToFullDose(85)).toBe(8 * 3600);
    expect(timeToFullDose(100) / 60).toBeCloseTo(numberOf("noise", "allowed time at 100 dB(A), NIOSH"), 9);
  });

  // published: NIOSH 98-126 beside 29 CFR 1910.95(b) table G-16, T = 480 min/2^((L − 90)/5), at four levels
  it.each([88, 94, 103, 112])("is that of both documents at %d dB(A)", (level) => {
    const [niosh, osha] = numbersOf("noise", `allowed time at ${level} dB(A): NIOSH, OSHA`);
    expect(timeToFullDose(level) / 60).toBeCloseTo(niosh!, 2);
    expect(timeToFullDose(level, "osha-1910-95") / 60).toBeCloseTo(osha!, 1);
  });

  // law: the distance of the full dose is where its time is full
  it("and the distance of the full dose are one", () => {
    const distance = distanceOfFullDose({ levelAt1m: 115, duration: 900 });
    expect(timeToFullDose(115 - 20 * Math.log10(distance))).toBeCloseTo(900, 6);
    expect(() => distanceOfFullDose({ levelAt1m: 100, duration: 0 })).toThrow("must be positive");
  });
});

describe("crestOfClicks", () => {
  // independent: 0.3 ms pulses, 100 in a second, rectangular
  it("of 0.3 ms clicks at 100/s is 15.2 dB", () => {
    expect(crestOfClicks({ pulse: 0.3e-3, rate: 100 })).toBeCloseTo(numberOf("noise", "crest of 0.3 ms pulses"), 2);
    expect(crestOfClicks({ pulse: 1, rate: 100 })).toBe(0);
  });
});
