/** What the figures of a record stand on, by key; an entry of `sources` each. */
import type { Source } from "./sources.ts";

export const benchSources = {
  "record-repetition": {
    author: "this project",
    title: "Starts of bursts by the likeness of their signals, and the line through them",
    where: "docs/captures.md",
    standing: "model",
    says: "repetition rate, its jitter, and the interval from the scatter about the line",
  },
  "record-drive": {
    author: "this project",
    title: "Start and end of the drive by how two resonators answer it, fitted by least squares",
    where: "docs/captures.md",
    standing: "model",
    says: "on-time where neither gate nor bridge is in the record",
  },
  "record-phase": {
    author: "textbooks of signal processing",
    title: "Frequency from the turning of the analytic signal's phase",
    where: "docs/captures.md",
    standing: "memory",
    says: "mean carrier over the drive, and its interval from the noise in the band",
  },
  "variable-projection-1973": {
    author: "G. H. Golub, V. Pereyra",
    title:
      "The differentiation of pseudo-inverses and nonlinear least squares problems whose variables separate, SIAM Journal on Numerical Analysis 10, p. 413",
    year: 1973,
    standing: "memory",
    says: "damped sinusoids fitted to a decay: poles, beat, decay time, quality, with their covariance",
  },
} as const satisfies Record<string, Source>;
