/** Published thresholds of current through a person, at a frequency. None of them covers the spark before a contact. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { SourceKey } from "../catalogue/sources.ts";
import type { Ampere, Hertz } from "../units/si.ts";

export const bodyEffects = ["perception", "pain", "letGo", "breathing", "fibrillation"] as const;
export type BodyEffect = (typeof bodyEffects)[number];

export interface BodyThreshold {
  readonly effect: BodyEffect;
  /** [A] rms; undefined: nothing is published at this frequency, and nothing is said. */
  readonly span: readonly [low: Ampere, high: Ampere] | undefined;
  readonly source: SourceKey;
}

type Row = readonly [frequency: Hertz, low: Ampere, high: Ampere];

/** The tables give one figure for 50 and 60 Hz [Hz]. */
const mains: Hertz = 60;

/** Between rows straight in the logarithms; nothing outside. */
const tables: Readonly<Record<BodyEffect, { readonly rows: readonly Row[]; readonly source: SourceKey }>> = {
  perception: {
    rows: [
      [60, 0.2e-3, 0.4e-3],
      [1e3, 0.4e-3, 0.8e-3],
      [100e3, 25e-3, 40e-3],
      [1e6, 25e-3, 40e-3],
    ],
    source: "icnirp-1998-contact",
  },
  pain: {
    rows: [
      [60, 0.9e-3, 1.8e-3],
      [1e3, 1.6e-3, 3.3e-3],
      [100e3, 33e-3, 55e-3],
      [1e6, 28e-3, 50e-3],
    ],
    source: "icnirp-1998-contact",
  },
  letGo: {
    rows: [
      [60, 8e-3, 16e-3],
      [1e3, 12e-3, 24e-3],
      [100e3, 112e-3, 224e-3],
    ],
    source: "icnirp-1998-contact",
  },
  breathing: {
    rows: [
      [60, 12e-3, 23e-3],
      [1e3, 21e-3, 41e-3],
      [100e3, 160e-3, 320e-3],
    ],
    source: "icnirp-1998-contact",
  },
  // Line c1 for long shocks, and for short ones, times the frequency factor 1 at 50/60 Hz to 14 at 1 kHz.
  fibrillation: {
    rows: [
      [60, 40e-3, 500e-3],
      [1e3, 14 * 40e-3, 14 * 500e-3],
    ],
    source: "iec-60479-2-factors",
  },
};

/** Direct current: perception and the fibrillation line of long shocks; nothing else is published as a single figure. */
const direct: Readonly<Partial<Record<BodyEffect, Ampere>>> = { perception: 2e-3, fibrillation: 140e-3 };

/**
 * Thresholds at a frequency, rms.
 *
 * @param frequency  [Hz]; 0 for direct current; from 15 to 60 Hz the figures of 50/60 Hz
 * @returns          one for each effect, in order; the span is over children, women and men, or over long and short shocks
 * @throws OutOfDomain  the frequency is negative
 * @validity  contact without spark, adults and children in health; fibrillation only to 1 kHz, let-go and breathing to 100 kHz, perception and pain
 *            to 1 MHz: beyond that no threshold was found, which is no absence of hazard
 * @source    icnirp-1998-contact, iec-60479-2-factors, iec-60479-1-memory, all from memory
 */
export function bodyThresholds(frequency: Hertz): readonly BodyThreshold[] {
  if (!(frequency >= 0)) throw new OutOfDomain("bodyThresholds", `frequency must not be negative, got ${frequency} Hz`);
  return bodyEffects.map((effect): BodyThreshold => {
    if (frequency === 0) {
      const found = direct[effect];
      return { effect, span: found === undefined ? undefined : [found, found], source: "iec-60479-1-memory" };
    }
    const { rows, source } = tables[effect];
    return { effect, span: frequency < 15 ? undefined : between(rows, Math.max(frequency, mains)), source };
  });
}

function between(rows: readonly Row[], frequency: Hertz): readonly [Ampere, Ampere] | undefined {
  const above = rows.findIndex(([at]) => at >= frequency);
  if (above < 0) return undefined;
  const [to, low, high] = rows[above]!;
  const before = rows[above - 1];
  if (before === undefined) return [low, high];
  const share = Math.log(frequency / before[0]) / Math.log(to / before[0]);
  return [before[1] * (low / before[1]) ** share, before[2] * (high / before[2]) ** share];
}

/**
 * Weight of the perception and reaction network: I / √(1 + (f/723.4 Hz)²) stands for a current at mains frequency.
 * @validity to about 1 MHz
 * @source iec-60990: 10 kΩ and 22 nF
 */
export const reactionWeight = (frequency: Hertz): number => Math.hypot(1, 2 * Math.PI * frequency * 10e3 * 22e-9);

/**
 * Perception by IEC 479-2 above 10 kHz: 10 mA × f/10 kHz.
 * @returns [A] rms; undefined outside 10 to 100 kHz
 * @source iec-479-2-1987
 */
export const highFrequencyPerception = (frequency: Hertz): Ampere | undefined =>
  frequency >= 10e3 && frequency <= 100e3 ? (10e-3 * frequency) / 10e3 : undefined;

export interface ContactLevel {
  readonly who: string;
  readonly level: Ampere;
  readonly source: SourceKey;
}

/**
 * Published levels of current from a touched object, without the spark before the contact.
 *
 * @returns [A] rms; below 2.5 kHz 0.5 and 1 mA, then in proportion to f, from 100 kHz 20 and 40 mA; touch by IEEE from 100 kHz to 3 MHz. Empty above 10 MHz
 * @source icnirp-2010; ieee-c95-contact
 */
export function contactLevels(frequency: Hertz): readonly ContactLevel[] {
  if (frequency > 10e6) return [];
  const share = Math.min(1, Math.max(frequency, 2.5e3) / 100e3);
  return [
    { who: "general public", level: 20e-3 * share, source: "icnirp-2010" },
    { who: "occupational", level: 40e-3 * share, source: "icnirp-2010" },
    ...(frequency >= 0.1e6 && frequency <= 3e6
      ? ([
          { who: "unrestricted, touch, over 1 s", level: 16.7e-3, source: "ieee-c95-contact" },
          { who: "restricted, touch, over 1 s", level: 50e-3, source: "ieee-c95-contact" },
        ] as const)
      : []),
  ];
}
