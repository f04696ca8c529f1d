/** One spark from something charged: what goes through whoever is in its way. */
import { OutOfDomain } from "../catalogue/errors.ts";
import type { Ampere, Coulomb, Farad, Joule, Ohm, Second, Volt } from "../units/si.ts";

/** Internal impedance of a body, skin bridged, taken low [Ω]. Source: iec-60479-1-memory. */
export const bodyResistance: Ohm = 500;

export interface DischargePulse {
  readonly peak: Ampere;
  /** 3RC: by then 95 % of the charge has passed. */
  readonly duration: Second;
  /** Over that duration. */
  readonly rms: Ampere;
  /** Specific energy [A²s]. */
  readonly squareTime: number;
  readonly charge: Coulomb;
  readonly energy: Joule;
}

/**
 * A capacitor discharging through a body.
 *
 *   Ipk = V/R,  t = 3RC,  Irms = Ipk/√6,  Fe = Ipk²·RC/2,  Fq = CV
 *
 * @throws OutOfDomain  capacitance or resistance not positive, or voltage negative
 * @validity  no inductance in the way and no resistance of the spark: both lower the peak and lengthen it, charge and energy stay
 * @source    capacitor-discharge; charge: its definition
 */
export function dischargePulse({
  capacitance,
  voltage,
  resistance = bodyResistance,
}: {
  capacitance: Farad;
  voltage: Volt;
  resistance?: Ohm;
}): DischargePulse {
  if (!(capacitance > 0 && resistance > 0 && voltage >= 0)) {
    throw new OutOfDomain(
      "dischargePulse",
      `needs capacitance and resistance > 0, voltage ≥ 0, got ${capacitance} F, ${resistance} Ω, ${voltage} V`,
    );
  }
  const [peak, time] = [voltage / resistance, resistance * capacitance];
  return {
    peak,
    duration: 3 * time,
    rms: peak / Math.sqrt(6),
    squareTime: (peak ** 2 * time) / 2,
    charge: capacitance * voltage,
    energy: 0.5 * capacitance * voltage ** 2,
  };
}

/** Charge of a spark that is felt, and that is unpleasant to painful [C]. Source: discharge-perception. */
export const dischargeFelt = { felt: [0.1e-6, 0.5e-6], painful: [0.5e-6, 50e-6] } as const;

/**
 * Charge of a single pulse through the chest at which hearts have fibrillated: 1 mC at 1 µs to 100 mC at 10 ms by Weiss's law, 100 mC to 5 s.
 * For a drawing beside others; nothing is to be divided by it.
 *
 * @returns [C]; undefined below 1 µs and above 5 s, where the fit gives no charge
 * @source fibrillation-charge-2016, both ends of the law as printed, the law between them q0·(1 + t/τ)
 */
export function fibrillationCharge(duration: Second): Coulomb | undefined {
  if (!(duration >= 1e-6 && duration <= 5)) return undefined;
  if (duration >= 10e-3) return 100e-3;
  const [first, last] = [1e-3, 100e-3];
  return first + ((last - first) * (duration - 1e-6)) / (10e-3 - 1e-6);
}

/**
 * Weiss's law: charge that excites, Irh·(t + τ).
 * @returns [C] for a rheobase in [A]
 * @source weiss-lapicque
 */
export const weissCharge = ({
  rheobase,
  duration,
  constant,
}: {
  rheobase: Ampere;
  duration: Second;
  constant: Second;
}): Coulomb => rheobase * (duration + constant);

/**
 * Lapicque's law: current that excites, Irh/(1 − e^(−t/τ)); chronaxie τ·ln 2.
 * @returns [A] for a rheobase in [A]
 * @source weiss-lapicque
 */
export const lapicqueCurrent = ({
  rheobase,
  duration,
  constant,
}: {
  rheobase: Ampere;
  duration: Second;
  constant: Second;
}): Ampere => rheobase / -Math.expm1(-duration / constant);

/**
 * How much more a sine takes to excite than at low frequency: 1 up to the corner, in proportion above.
 * @returns ratio; of the heart it is no verdict about fibrillation
 * @source ieee-c95-excitation: corner 3350 Hz for nerve, 167 Hz for the heart
 */
export const excitationRatio = (frequency: number, of: "nerve" | "heart"): number =>
  Math.max(1, frequency / (of === "nerve" ? 3350 : 167));
