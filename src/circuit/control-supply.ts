/** The driver's own supply: does the reservoir's trough leave each regulator its dropout at low mains and full load? */
import type { Supply } from "../description/coil.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ampere, Hertz, Ratio, Volt } from "../units/si.ts";
import { bridgeRipple } from "./rectifier.ts";

export type ControlSupply = NonNullable<Supply["control"]>;

/** Lowest mains over its nominal voltage that is reckoned with, and one silicon diode; two are in a bridge's path. */
const lowMains: Ratio = 0.9;
const diodeDrop: Volt = 0.8;

export interface ControlHeadroom {
  /** [V] lowest voltage of the reservoir at low mains and full load. */
  readonly trough: Volt;
  /** All rails together. */
  readonly load: Ampere;
  /** [V] of each rail in order: trough − rail − dropout. Below zero the rail drops out. */
  readonly headroom: readonly Volt[];
}

/**
 * Headroom of linear regulators behind a transformer, a bridge and a reservoir.
 *
 * The transformer gives its rated voltage at its rated current and `regulation` more with nothing on it; in between it falls in a straight
 * line. A bridge takes two diode drops of 0.8 V. The reservoir's ripple is that of `bridgeRipple` with a constant current.
 *
 * @param frequency  [Hz] of the mains
 * @throws OutOfDomain  a current, capacitance or voltage that is not positive
 * @validity  a transformer that charges a reservoir delivers current in peaks; its own resistance then costs more than the straight line
 *            says, by up to a volt in small ones (common practice, no source)
 * @source    `bridgeRipple`; drop and regulation are common practice, no source
 */
export function controlHeadroom({ control, frequency }: { control: ControlSupply; frequency: Hertz }): ControlHeadroom {
  const { transformer, current, regulation, reservoir, rails } = control;
  const load = rails.reduce((sum, rail) => sum + rail.load, 0);
  if (!(current > 0)) throw new OutOfDomain("controlHeadroom", `the rated current must be positive, got ${current} A`);
  const rms = lowMains * transformer * (1 + regulation * (1 - load / current));
  const dropped = rms - (2 * diodeDrop) / Math.SQRT2;
  if (!(dropped > 0)) {
    return { trough: 0, load, headroom: rails.map(({ volts, dropout }) => -volts - dropout) };
  }
  const { minimum } = bridgeRipple({
    source: { rms: dropped, frequency },
    capacitance: reservoir,
    load: { current: load },
  });
  return { trough: minimum, load, headroom: rails.map(({ volts, dropout }) => minimum - volts - dropout) };
}
