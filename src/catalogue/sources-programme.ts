/** What the figures of a programme stand on, by key; an entry of `sources` each. */
import type { Source } from "./sources.ts";

export const programmeSources = {
  "iso-16": {
    author: "International Organization for Standardization",
    title: "ISO 16, Acoustics: standard tuning frequency (standard musical pitch)",
    year: 1975,
    standing: "memory",
    says: "the A above middle C is 440 Hz; equal temperament divides the octave into twelve equal ratios",
  },
  "iec-61672-1": {
    author: "International Electrotechnical Commission",
    title: "IEC 61672-1, Electroacoustics: sound level meters, part 1",
    where: "annex E, analytical expressions of the frequency weightings",
    standing: "memory",
    says: "weighting A as a rational function of frequency with corners at 20.6, 107.7, 737.9 and 12194 Hz",
  },
  "midi-level-curve": {
    author: "makers of electronic instruments",
    title: "Level from key velocity and channel volume: 40 × the logarithm to base 10 of value over 127, in decibels",
    standing: "memory",
    says: "amplitude rises with the square of velocity and of channel volume",
  },
  "programme-plan": {
    author: "this project",
    title: "Pulses of a song inside hard limits",
    where: "docs/programme.md",
    standing: "model",
    says: "how notes become pulses, what happens where they meet, and what each limit means",
  },
  "programme-energies": {
    author: "this project",
    title: "Energy and loss of a pulse by on-time and bus, tabled from the burst simulation",
    where: "docs/programme.md",
    standing: "model",
    says: "straight lines between sixteen on-times, a power law of the bus, the greatest over three repetition rates; checked half way between",
  },
  "programme-heat": {
    author: "this project",
    title: "Foster terms advanced from pulse to pulse, with a heatsink of one minute",
    where: "docs/programme.md",
    standing: "model",
    says: "exact exponentials for every pulse; the time constants of heatsink and bank are common practice, no source",
  },
} as const satisfies Record<string, Source>;
