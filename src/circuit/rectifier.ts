/** Exact ripple of a rectifier with a capacitor behind it: ideal diodes, a stiff source, the steady state. */
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import { bracketedRoot } from "../numerics/root.ts";
import type { Ampere, Farad, Hertz, Ohm, Volt } from "../units/si.ts";
import { mainsPeak } from "./mains.ts";

/** [V] of the voltage behind the rectifier. `ripple` is peak to peak. */
export interface Ripple {
  readonly maximum: Volt;
  readonly minimum: Volt;
  readonly mean: Volt;
  readonly ripple: Volt;
}

/** What the capacitor feeds: a current that does not change, or a resistor. */
export type RectifierLoad = { readonly current: Ampere } | { readonly resistance: Ohm };

interface Source {
  /** [V] effective. */
  readonly rms: Volt;
  readonly frequency: Hertz;
}

/** One capacitor between releases: how its voltage falls, and what that integrates to, with time as the angle ω·t. */
interface Fall {
  /** Angle at which the source leaves the capacitor behind, π/2 to π. */
  readonly release: number;
  readonly at: (sinceRelease: number) => number;
  readonly areaUntil: (sinceRelease: number) => number;
}

/** [rad] of the mains. */
const angleTolerance = 1e-14;

function fallOf(peak: Volt, omegaC: number, load: RectifierLoad): Fall {
  if ("current" in load) {
    const slope = load.current / omegaC;
    const release = Math.acos(-Math.min(1, slope / peak));
    const start = peak * Math.sin(release);
    return {
      release,
      at: (angle) => start - slope * angle,
      areaUntil: (angle) => angle * (start - 0.5 * slope * angle),
    };
  }
  const decay = omegaC * load.resistance;
  const release = Math.PI - Math.atan(decay);
  const start = peak * Math.sin(release);
  return {
    release,
    at: (angle) => start * Math.exp(-angle / decay),
    areaUntil: (angle) => -start * decay * Math.expm1(-angle / decay),
  };
}

/**
 * A bridge rectifier with one capacitor.
 *
 * The capacitor follows the source until C·dV/dt = −I, falls with the load alone, and is caught by the next half sine.
 *
 * @throws OutOfDomain  a value that is not positive (no load at all: current 0 is taken, there is no ripple)
 * @validity  ideal diodes and source: mains and transformer impedance lower the maximum and shrink the ripple; the rule of thumb
 *            I/(2·f·C) lies 5–25 % above this
 * @source    event equations of an ideal rectifier, solved by root finding
 */
export function bridgeRipple({
  source: { rms, frequency },
  capacitance,
  load,
}: {
  source: Source;
  capacitance: Farad;
  load: RectifierLoad;
}): Ripple {
  requireLoad("bridgeRipple", { rms, frequency }, capacitance, load);
  const peak = mainsPeak(rms);
  const omegaC = 2 * Math.PI * frequency * capacitance;
  const fall = fallOf(peak, omegaC, load);
  const over = (angle: number): number => fall.at(angle - fall.release) - peak * Math.sin(angle - Math.PI);
  const caught = bracketedRoot(over, { low: Math.PI, high: 1.5 * Math.PI, tolerance: angleTolerance });
  const minimum = peak * Math.sin(caught - Math.PI);
  const following = peak * (Math.cos(caught - Math.PI) - Math.cos(fall.release));
  const mean = (following + fall.areaUntil(caught - fall.release)) / Math.PI;
  return { maximum: peak, minimum, mean, ripple: peak - minimum };
}

/**
 * A voltage doubler: two capacitors in series, each charged in its own half of the cycle; the load takes its current through both.
 *
 * @param capacitanceEach  [F] of each of the two
 * @throws OutOfDomain  a value that is not positive, or a current that empties a capacitor within a cycle
 * @validity  ideal diodes and source, constant current
 * @source    event equations of an ideal rectifier, piecewise closed form
 */
export function doublerRipple({
  source: { rms, frequency },
  capacitanceEach,
  current,
}: {
  source: Source;
  capacitanceEach: Farad;
  current: Ampere;
}): Ripple {
  requireLoad("doublerRipple", { rms, frequency }, capacitanceEach, { current });
  const peak = mainsPeak(rms);
  const omegaC = 2 * Math.PI * frequency * capacitanceEach;
  const fall = fallOf(peak, omegaC, { current });
  const over = (angle: number): number => fall.at(angle - fall.release) - peak * Math.sin(angle);
  if (!(over(2 * Math.PI) > 0))
    throw new OutOfDomain("doublerRipple", `${current} A empties ${capacitanceEach} F within a cycle`);
  const caught =
    bracketedRoot(over, { low: 2 * Math.PI, high: 2.5 * Math.PI, tolerance: angleTolerance }) - 2 * Math.PI;
  // While one capacitor follows the source the other is half a cycle into its fall; the sum turns where the source's slope is I/C.
  const both = (angle: number): number => peak * Math.sin(angle) + fall.at(angle + Math.PI - fall.release);
  const minimum = both(caught);
  const maximum = both(Math.acos(Math.min(1, current / (omegaC * peak))));
  const following = peak * (Math.cos(caught) - Math.cos(fall.release));
  const mean = (following + fall.areaUntil(caught + 2 * Math.PI - fall.release)) / Math.PI;
  return { maximum, minimum, mean, ripple: maximum - minimum };
}

function requireLoad(where: string, { rms, frequency }: Source, capacitance: Farad, load: RectifierLoad): void {
  if (!(rms > 0 && frequency > 0 && capacitance > 0))
    throw new OutOfDomain(
      where,
      `needs a positive voltage, frequency and capacitance, got ${rms}, ${frequency}, ${capacitance}`,
    );
  if ("current" in load ? !(load.current >= 0) : !(load.resistance > 0))
    throw new OutOfDomain(where, "needs a load current that is not negative, or a positive resistance");
}
