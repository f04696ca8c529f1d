/** Figures of the feedback, and which pole it runs on. */
import { type Figure, figure } from "../catalogue/figure.ts";
import { burdenVoltage } from "../circuit/current-transformer.ts";
import type { Feedback } from "../description/coil.ts";
import type { Hertz } from "../units/si.ts";
import type { PoleLock } from "./burst-contract.ts";
import type { BurstContext } from "./burst-figures.ts";

/** What the feedback section alone says. */
export function tripFigures({ transformer, overcurrent }: Feedback): Figure[] {
  if (!transformer || overcurrent === undefined) return [];
  return [
    figure("feedback.tripVoltage", burdenVoltage({ current: overcurrent, ...transformer }), {
      from: ["feedback.overcurrent", "feedback.transformer"],
      source: "current-transformer",
    }),
  ];
}

/** Where the gates stand to the crossings at a frequency. */
export function phaseFigures({ delay, lead, sense }: Feedback, frequency: Hertz, frequencyFrom: string): Figure[] {
  if (typeof sense === "object") return [];
  const omega = 2 * Math.PI * frequency;
  const phase = omega * delay - Math.atan(omega * lead);
  const from = ["feedback.delay", "feedback.lead", frequencyFrom];
  const source = "burst-simulation";
  return [
    figure("feedback.timeError", phase / omega, {
      from,
      source,
      note: "a lead s + lead·ds/dt brings the crossing forward by atan(2πf·lead), less than the lead written; dead time comes on top",
    }),
    figure("feedback.phaseError", phase, { from, source }),
  ];
}

export function burdenFigures({ coil: { feedback }, solution, train }: BurstContext): Figure[] {
  const { transformer, sense } = feedback;
  if (!transformer || typeof sense === "object") return [];
  const secondary = sense === "secondaryCurrent";
  const perVolt = solution.figures.get("secondary.baseCurrentPerVolt")?.value ?? 0;
  const current = secondary ? perVolt * train.result.peakTopVoltage : train.result.peakPrimaryCurrent;
  return [
    figure("feedback.burdenVoltage", burdenVoltage({ current, ...transformer }), {
      from: [
        ...(secondary ? ["burst.peakTopVoltage", "secondary.baseCurrentPerVolt"] : ["burst.peakPrimaryCurrent"]),
        "feedback.transformer",
      ],
      source: "current-transformer",
      note: "peak; the transformer's secondary must never be open while the coil runs",
    }),
  ];
}

/** Beyond this factor from a pole the bridge runs on something else: a higher mode, or nothing that rings. */
const farthest = 1.3;

/**
 * Which pole the bridge runs on.
 *
 * The first edge sets both poles ringing. Of the primary current, after a step on two coupled loops without loss, the lower pole has
 * (ω2² − ωa²)/ωa and the upper (ωb² − ω2²)/ωb, with ω2 the secondary's own; of the secondary current they have ωa and ωb. The comparator
 * follows the larger, and a bridge that drives at a pole feeds that pole.
 *
 * @source Laplace transform of two coupled loops
 */
export function poleLock({ coil: { feedback }, solution, train }: BurstContext): PoleLock {
  const value = (id: string): number => solution.figures.get(id)!.value;
  const [lower, upper, own] = [value("poles.lower"), value("poles.upper"), value("secondary.f1")];
  const atLower = feedback.sense === "secondaryCurrent" ? lower : Math.max(0, own ** 2 - lower ** 2) / lower;
  const atUpper = feedback.sense === "secondaryCurrent" ? upper : Math.max(0, upper ** 2 - own ** 2) / upper;
  const kickAtLower = atLower + atUpper > 0 ? atLower / (atLower + atUpper) : 0.5;
  const frequency = train.result.meanFrequency;
  if (frequency === undefined || typeof feedback.sense === "object") return { pole: "none", ratio: 1, kickAtLower };
  if (frequency > farthest * upper || farthest * frequency < lower) return { pole: "none", ratio: 1, kickAtLower };
  const pole = Math.abs(frequency - lower) <= Math.abs(frequency - upper) ? "lower" : "upper";
  return { pole, ratio: frequency / (pole === "lower" ? lower : upper), kickAtLower };
}
