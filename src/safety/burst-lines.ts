/** What an arc makes of a burst train: direct current and lines at the rate, where nerves answer best. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Ampere, Coulomb, Hertz, Ratio, Second } from "../units/si.ts";

/** Inequality of the half-cycles in an arc; it is not known, so three are shown. Source: arc-demodulation. */
export const asymmetries = [0.01, 0.05, 0.3] as const;

export interface BurstLine {
  /** 0 for direct current. */
  readonly frequency: Hertz;
  /** Mean for direct current, else peak. */
  readonly current: Ampere;
}

/**
 * Low lines of a train whose half-cycles are unequal by a part a of the peak.
 *
 *   I0 = a·(Ipk/π)·D,   In = 2a·(Ipk/π)·D·|sinc(nD)|,   D = on-time × rate,   sinc x = sin(πx)/(πx)
 *
 * @param peak    [A], of the carrier
 * @param onTime  [s], rate [Hz], their product at most 1
 * @param upTo    [Hz], highest line
 * @returns       direct current first
 * @throws OutOfDomain  a value is not positive, or the bursts overlap
 * @source arc-demodulation
 */
export function burstLines({
  peak,
  asymmetry,
  onTime,
  rate,
  upTo,
}: {
  peak: Ampere;
  asymmetry: Ratio;
  onTime: Second;
  rate: Hertz;
  upTo: Hertz;
}): readonly BurstLine[] {
  const duty = onTime * rate;
  if (!(peak >= 0 && asymmetry >= 0 && duty > 0 && duty <= 1)) {
    throw new OutOfDomain(
      "burstLines",
      `needs peak and asymmetry ≥ 0 and on-time × rate in (0, 1], got ${peak} A, ${asymmetry}, ${duty}`,
    );
  }
  const mean = asymmetry * (peak / Math.PI) * duty;
  const count = Math.floor(upTo / rate);
  return [
    { frequency: 0, current: mean },
    ...Array.from({ length: count }, (_, index): BurstLine => {
      const angle = Math.PI * (index + 1) * duty;
      return { frequency: (index + 1) * rate, current: 2 * mean * Math.abs(Math.sin(angle) / angle) };
    }),
  ];
}

/** Charge that the inequality moves in one burst [C]: a·Ipk·ton/π. */
export const chargePerBurst = ({
  peak,
  asymmetry,
  onTime,
}: {
  peak: Ampere;
  asymmetry: Ratio;
  onTime: Second;
}): Coulomb => (asymmetry * peak * onTime) / Math.PI;
