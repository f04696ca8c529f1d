import { describe, expect, it } from "vitest";
import {
  asymmetries,
  type bodyEffects,
  bodyThresholds,
  burstLines,
  chargePerBurst,
  contactLevels,
  dischargeFelt,
  dischargePulse,
  excitationRatio,
  fibrillationCharge,
  highFrequencyPerception,
  lapicqueCurrent,
  reactionWeight,
  weissCharge,
} from "../../src/safety/index.ts";
import { numberOf, numbersOf } from "./reference.ts";

const span = (frequency: number, effect: (typeof bodyEffects)[number]) =>
  bodyThresholds(frequency).find((one) => one.effect === effect)!.span;
const milli = (values: readonly number[] | undefined) => values?.map((value) => Number((1e3 * value).toPrecision(6)));

describe("dischargePulse", () => {
  // published: Electrical Safety of Low-Voltage Systems, p. 221, after IEC 60479-2: 1 µF at 10 kV into 1 kΩ
  it("of the worked example is 10 A, 4.1 A rms over 3 ms, 0.048 A²s, 50 J", () => {
    const pulse = dischargePulse({ capacitance: 1e-6, voltage: 10e3, resistance: 1000 });
    expect(pulse.peak).toBeCloseTo(numberOf("safety", "capacitor discharge, peak current"), 9);
    // printed 4.0, from 10/√6 = 4.08
    expect(pulse.rms).toBeCloseTo(10 / Math.sqrt(6), 9);
    // printed 0.048 from the rounded 4.0 A: 4² × 3 ms
    expect(pulse.squareTime / numberOf("safety", "capacitor discharge, specific energy")).toBeCloseTo(1.04, 2);
    expect([pulse.duration, pulse.charge, pulse.energy]).toEqual([3e-3, 0.01, expect.closeTo(50, 9)]);
  });

  // law: charge and energy do not depend on who is in the way
  it("has the charge and energy of the capacitor whatever the resistance", () => {
    const [soft, hard] = [300, 5000].map((resistance) =>
      dischargePulse({ capacitance: 2e-11, voltage: 2e5, resistance }),
    );
    expect(soft!.charge).toBe(hard!.charge);
    expect(soft!.energy).toBe(hard!.energy);
    // Irms²·3RC is the whole of Fe to the factor that 3RC leaves out: Ipk²·RC/2 exactly
    expect(soft!.rms ** 2 * soft!.duration).toBeCloseTo(soft!.squareTime, 12);
    expect(() => dischargePulse({ capacitance: 0, voltage: 1 })).toThrow("capacitance");
  });

  // published, from memory: Reilly and Larkin; IEC 60479-2 curves A and B
  it("is felt and hurts from the charges of the source", () => {
    expect(dischargeFelt.felt.map((q) => 1e6 * q)).toEqual(
      numbersOf("safety", "perception of a capacitor discharge").map((q) => expect.closeTo(q, 9)),
    );
    expect(dischargeFelt.painful.map((q) => 1e6 * q)).toEqual(
      numbersOf("safety", "unpleasant to painful").map((q) => expect.closeTo(q, 9)),
    );
  });
});

describe("fibrillationCharge", () => {
  // published: Pratt, Panescu, Andrews, Kroll, EMBC 2016, abstract: 1 mC at 1 µs, 100 mC from 10 ms to 5 s
  it("is that of the abstract at its ends, and nothing outside", () => {
    expect(1e3 * fibrillationCharge(1e-6)!).toBeCloseTo(numberOf("safety", "charge for fibrillation, 1 µs pulse"), 9);
    for (const duration of [10e-3, 1, 5]) {
      expect(1e3 * fibrillationCharge(duration)!).toBeCloseTo(
        numberOf("safety", "charge for fibrillation, 10 ms to 5 s"),
        9,
      );
    }
    expect([fibrillationCharge(0.9e-6), fibrillationCharge(5.1)]).toEqual([undefined, undefined]);
  });
});

describe("strength and duration", () => {
  // published, from memory: Weiss 1901, Lapicque 1907; law: at the chronaxie the current is twice the rheobase
  it("are Weiss's and Lapicque's", () => {
    const constant = 149e-6;
    expect(weissCharge({ rheobase: 2e-3, duration: 1e-3, constant })).toBeCloseTo(2e-3 * (1e-3 + constant), 12);
    expect(lapicqueCurrent({ rheobase: 2e-3, duration: constant * Math.LN2, constant })).toBeCloseTo(4e-3, 12);
    // for short pulses both ask for the same charge
    expect(lapicqueCurrent({ rheobase: 2e-3, duration: 1e-9, constant }) * 1e-9).toBeCloseTo(
      weissCharge({ rheobase: 2e-3, duration: 1e-9, constant }),
      11,
    );
  });

  // published, from memory: IEEE C95.6 / C95.1-2019, corner frequencies 3350 Hz and 167 Hz
  it("ask 60 times more of a nerve and 1200 times more of a heart at 200 kHz", () => {
    expect(excitationRatio(200e3, "nerve")).toBeCloseTo(numberOf("safety", "ratio of nerve threshold at 200 kHz"), 2);
    expect(excitationRatio(200e3, "heart")).toBeCloseTo(numberOf("safety", "ratio of heart threshold at 200 kHz"), 1);
    expect([excitationRatio(3350, "nerve"), excitationRatio(50, "heart")]).toEqual([1, 1]);
  });
});

describe("burstLines", () => {
  // independent: Fourier series, 10 A, a = 0.05, 110 µs at 180 Hz
  it("of the worked example are 3.15 mA direct, 6.3 mA at the rate, 17.5 µC a burst", () => {
    const parts = { peak: 10, asymmetry: 0.05, onTime: 110e-6, rate: 180 };
    const [direct, first] = burstLines({ ...parts, upTo: 1000 });
    expect(1e3 * direct!.current).toBeCloseTo(numberOf("safety", "demodulated mean current"), 3);
    expect(1e3 * first!.current).toBeCloseTo(numberOf("safety", "demodulated first harmonic"), 3);
    expect(1e6 * chargePerBurst(parts)).toBeCloseTo(numberOf("safety", "demodulated charge per burst"), 2);
  });

  // independent: the Fourier integral of a train of rectified, unequal half-cycles, by the trapezoidal rule
  it("agree with the Fourier integral of such a train", () => {
    const [peak, asymmetry, onTime, rate, carrier] = [3, 0.3, 1e-3, 100, 50e3];
    const steps = 400_000;
    const lines = burstLines({ peak, asymmetry, onTime, rate, upTo: 500 });
    for (const [order, { current }] of lines.entries()) {
      let [real, imaginary] = [0, 0];
      for (let i = 0; i < steps; i++) {
        const time = i / steps / rate;
        if (time >= onTime) break;
        const wave = Math.sin(2 * Math.PI * carrier * time);
        const value = peak * (wave > 0 ? wave : (1 - asymmetry) * wave);
        real += value * Math.cos(2 * Math.PI * order * rate * time);
        imaginary += value * Math.sin(2 * Math.PI * order * rate * time);
      }
      const amplitude = (Math.hypot(real, imaginary) / steps) * (order === 0 ? 1 : 2);
      expect(amplitude / current).toBeCloseTo(1, 1);
    }
  });

  // law: a symmetrical train has no lines at audio; charge per burst times rate is the mean
  it("vanish with the asymmetry, and the charge of each burst is their mean", () => {
    const parts = { peak: 4, onTime: 1e-4, rate: 300 };
    expect(burstLines({ ...parts, asymmetry: 0, upTo: 1000 }).every(({ current }) => current === 0)).toBe(true);
    for (const asymmetry of asymmetries) {
      const [direct] = burstLines({ ...parts, asymmetry, upTo: 1000 });
      expect(chargePerBurst({ ...parts, asymmetry }) * parts.rate).toBeCloseTo(direct!.current, 15);
    }
    expect(asymmetries).toEqual([0.01, 0.05, 0.3]);
    expect(() => burstLines({ ...parts, onTime: 1, asymmetry: 0.1, upTo: 1000 })).toThrow("on-time × rate");
  });
});

describe("bodyThresholds", () => {
  // published, from memory: ICNIRP 1998, table of thresholds for indirect effects
  it.each([
    ["perception", "touch perception, finger"],
    ["pain", "pain on finger contact"],
    ["letGo", "painful shock, let-go"],
    ["breathing", "severe shock, breathing difficulty"],
  ] as const)(
    "of %s are those of ICNIRP 1998 at each of its frequencies, and absent where it has none",
    (effect, quantity) => {
      const rows = numbersOf("safety", quantity) as unknown as ([number, number] | null)[];
      for (const [index, frequency] of [50, 1e3, 100e3, 1e6].entries()) {
        expect(milli(span(frequency, effect))).toEqual(rows[index] ?? undefined);
      }
      expect(milli(span(60, effect))).toEqual(rows[0]);
      expect(span(1.01e6, effect)).toBeUndefined();
    },
  );

  // published, from memory: IEC 60479-1 fig. 20 line c1 (40 mA long, 500 mA short), IEC 60479-2 factor 14 at 1 kHz; none above
  it("of fibrillation are c1 with its frequency factor to 1 kHz, and there is none above", () => {
    const [long, short] = [
      numberOf("safety", "ventricular fibrillation line c1, long shock"),
      numberOf("safety", "ventricular fibrillation line c1, short shock"),
    ];
    const factor = numberOf("safety", "frequency factor for fibrillation, 1 kHz");
    expect(milli(span(50, "fibrillation"))).toEqual([long, short]);
    expect(milli(span(1e3, "fibrillation"))).toEqual([factor * long, factor * short]);
    for (const frequency of [1001, 10e3, 200e3, 1e6]) expect(span(frequency, "fibrillation")).toBeUndefined();
  });

  // published, from memory: IEC 60479-1, d.c. zones: perception 2 mA, fibrillation line c1 140 mA
  it("of direct current are perception and fibrillation alone", () => {
    expect(milli(span(0, "perception"))).toEqual(Array(2).fill(numberOf("safety", "d.c. perception")));
    expect(milli(span(0, "fibrillation"))).toEqual(Array(2).fill(numberOf("safety", "d.c. fibrillation line c1")));
    expect([span(0, "pain"), span(0, "letGo"), span(10, "pain")]).toEqual([undefined, undefined, undefined]);
  });

  // law: between the rows they rise without a jump
  it("rise between the rows", () => {
    for (const effect of ["perception", "pain", "letGo", "fibrillation"] as const) {
      const at = [60, 100, 200, 400, 800, 1000].map((frequency) => span(frequency, effect)![0]);
      expect(at).toEqual([...at].sort((a, b) => a - b));
    }
  });
});

describe("reactionWeight", () => {
  // published, from memory: IEC 60990 fig. 4, 10 kΩ and 22 nF
  it.each([1e3, 10e3, 100e3, 200e3])("is that of the network at %d Hz", (frequency) => {
    const expected = numberOf("safety", "weighting for perception/reaction", `f = ${frequency} Hz`);
    // to the four digits that are printed
    expect(reactionWeight(frequency) / expected).toBeCloseTo(1, 3);
  });
});

describe("highFrequencyPerception", () => {
  // published: IEC 479-2:1987 as summarised: 10 mA at 10 kHz to 100 mA at 100 kHz
  it("rises from 10 to 100 mA", () => {
    const [low, high] = numbersOf("safety", "perception threshold 10 to 100 kHz");
    expect(milli([highFrequencyPerception(10e3)!, highFrequencyPerception(100e3)!])).toEqual([low, high]);
    expect([highFrequencyPerception(9e3), highFrequencyPerception(101e3)]).toEqual([undefined, undefined]);
  });
});

describe("contactLevels", () => {
  // published: ICNIRP 2010 table of contact currents, as reproduced; IEEE C95.1-2345-2014 in Tell and Tucker 2018, table 2
  it.each([100e3, 200e3, 1e6])("are 20 and 40 mA, 16.7 and 50 mA at %d Hz", (frequency) => {
    const levels = contactLevels(frequency).map(({ level }) => Number((1e3 * level).toPrecision(4)));
    expect(levels).toEqual([
      numberOf("safety", "contact current, general public"),
      numberOf("safety", "contact current, occupational"),
      numberOf("safety", "IEEE touch contact current, unrestricted"),
      numberOf("safety", "IEEE touch contact current, restricted"),
    ]);
  });

  // published: the same tables: 0.2·f and 0.4·f mA from 2.5 to 100 kHz, f in kHz; 0.5 and 1 mA below
  it("fall with the frequency below 100 kHz", () => {
    const at = (frequency: number) => contactLevels(frequency).map(({ level }) => Number((1e3 * level).toPrecision(4)));
    expect([at(50), at(2.5e3), at(50e3)]).toEqual([
      [0.5, 1],
      [0.5, 1],
      [10, 20],
    ]);
    expect([contactLevels(2e6).length, contactLevels(5e6).length, contactLevels(11e6).length]).toEqual([4, 2, 0]);
  });
});
