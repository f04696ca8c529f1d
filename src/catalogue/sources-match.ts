/** What a match of model and records stands on, by key; an entry of `sources` each. */
import type { Source } from "./sources.ts";

export const matchSources = {
  "levenberg-marquardt": {
    author: "K. Levenberg; D. W. Marquardt",
    title:
      "A method for the solution of certain non-linear problems in least squares, Quarterly of Applied Mathematics 2, p. 164; An algorithm for least-squares estimation of nonlinear parameters, SIAM Journal 11, p. 431",
    year: 1963,
    standing: "memory",
    says: "least squares of a nonlinear model with damped steps on the scale of its own slopes",
  },
  "laplace-evidence": {
    author: "textbooks of statistics, after P.-S. Laplace",
    title: "Probability of the data under a model, to second order about the best fit",
    standing: "derived",
    says: "−2·ln of it is χ² of data and priors, less the logarithm of the determinant of the fit's covariance in units of the priors",
  },
  "bench-match": {
    author: "this project",
    title: "The model fitted to records from the bench, every number within its tolerance",
    where: "docs/bench.md",
    standing: "model",
    says: "fitted values with 90 % intervals; what the model itself may be off by is a parameter of the fit",
  },
} as const satisfies Record<string, Source>;
