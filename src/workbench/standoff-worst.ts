/** What the bursts say at their worst: at the setting, at the interrupter's hard limits, without breakout, and wherever else they allow more. */
import type { Figure } from "../catalogue/figure.ts";
import type { Hertz } from "../units/si.ts";
import type { BurstStudy } from "./burst-contract.ts";
import type { Solution } from "./contract.ts";
import type { Span, StandoffBursts } from "./standoff-contract.ts";

const all = ({ study, atLimits, unlit, beyond = [] }: StandoffBursts): readonly BurstStudy[] => [
  study,
  ...(atLimits ? [atLimits] : []),
  ...(unlit ? [unlit] : []),
  ...beyond,
];

/** A figure of the bursts: as expected at the setting, least, and the most that any of them may reach. Undefined where none has it. */
export function worst(bursts: StandoffBursts, id: string): Span | undefined {
  const found = all(bursts).flatMap(({ figures }) => figures.get(id) ?? []);
  const [first] = found;
  if (first === undefined) return undefined;
  const now = bursts.study.figures.get(id) ?? first;
  const low = (one: Figure) => one.low ?? one.value;
  return {
    value: now.value,
    low: Math.min(low(now), now.value),
    high: Math.max(...found.map((one) => one.high ?? one.value)),
  };
}

/** As `worst`, in the one burst whose figure is the greatest. */
export function worstStudy(bursts: StandoffBursts, id: string): BurstStudy {
  const size = ({ figures }: BurstStudy) => figures.get(id)?.high ?? figures.get(id)?.value ?? -1;
  return all(bursts).reduce((most, one) => (size(one) > size(most) ? one : most));
}

/** Longest on-time [s] and greatest duty of the bursts, as set. */
export function hardest(bursts: StandoffBursts): {
  readonly onTime: number;
  readonly rate: number;
  readonly duty: number;
} {
  const settings = all(bursts).map(({ setting }) => setting);
  return {
    onTime: Math.max(...settings.map(({ onTime }) => onTime)),
    rate: Math.max(...settings.map(({ rate }) => rate)),
    duty: Math.min(1, Math.max(...settings.map(({ onTime, rate }) => onTime * rate))),
  };
}

/** The frequency that the coil runs at: of the burst, else of the lower pole, else of the winding. */
export function operatingFrequency(
  { figures }: Solution,
  { study }: StandoffBursts,
): { readonly frequency: Hertz; readonly from: string } | undefined {
  const ids = ["burst.frequency", "poles.lower", "secondary.f1"];
  for (const id of ids) {
    const found = study.figures.get(id) ?? figures.get(id);
    if (found) return { frequency: found.value, from: id };
  }
  return undefined;
}
