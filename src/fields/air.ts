/** Air: its density, the field at which a curved surface starts to glow, and the voltage a plane gap holds. None of these is a permission. */

import type { Air } from "../description/coil.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Kelvin, Metre, Pascal, Volt, VoltPerMetre } from "../units/si.ts";

/**
 * Relative air density of the test standards: δ = (p/101.3 kPa)·293/(273 + t), 1 at 20 °C.
 *
 * @throws OutOfDomain  pressure or temperature not positive
 * @source iec-60060-1
 */
export function relativeAirDensity({ pressure, temperature }: { pressure: Pascal; temperature: Kelvin }): number {
  requirePositive("relativeAirDensity", pressure, temperature);
  return (pressure / 101_300) * (293 / (temperature - 0.15));
}

/**
 * Peek's own density factor: δ = 3.92·b/(273 + t), b in cm of mercury, t in °C; 1 at 25 °C and 76 cm. His inception laws stand on this one,
 * which is 1.7 % above the standards' at the same air.
 *
 * @throws OutOfDomain  pressure or temperature not positive
 * @source peek-1929
 */
export function peekDensityFactor({ pressure, temperature }: { pressure: Pascal; temperature: Kelvin }): number {
  requirePositive("peekDensityFactor", pressure, temperature);
  const centimetresOfMercury = pressure / 1333.22387415;
  return (3.92 * centimetresOfMercury) / (temperature - 0.15);
}

/** What Peek measured: two parallel wires, a wire in a coaxial cylinder, or two spheres. */
export type PeekShape = "wire" | "cylinder" | "sphere";

/** g0 [V/m] and c [√cm] of E = g0·δ·(1 + c/√(δr)). */
const peekConstants: Readonly<Record<PeekShape, readonly [number, number]>> = {
  wire: [3.0e6, 0.301],
  cylinder: [3.1e6, 0.308],
  sphere: [2.72e6, 0.54],
};

/**
 * Peak field at a smooth surface at which corona starts.
 *
 *   E = g0·δ·(1 + c/√(δ·r)),   r in cm;   wire 30 kV/cm and 0.301, cylinder 31 and 0.308, sphere 27.2 and 0.54
 *
 * @param radius         [m], of curvature
 * @param densityFactor  δ, see `peekDensityFactor`
 * @returns              [V/m], peak
 * @throws OutOfDomain   radius or density not positive
 * @validity  an onset field, not a sparkover voltage; mains frequency, clean dry surfaces of some 0.1 mm to some 10 cm radius. Bursts of a
 *            carrier start somewhat differently. The constants for cylinder and sphere are from memory
 * @source    peek-1929
 */
export function peekInception({
  shape,
  radius,
  densityFactor,
}: {
  shape: PeekShape;
  radius: Metre;
  densityFactor: number;
}): VoltPerMetre {
  if (!(radius > 0 && densityFactor > 0)) {
    throw new OutOfDomain("peekInception", `needs positive radius and density, got ${radius} m and ${densityFactor}`);
  }
  const [field, curvature] = peekConstants[shape];
  return field * densityFactor * (1 + curvature / Math.sqrt(densityFactor * radius * 100));
}

/** Surface roughness factors between a handled and a polished surface: common practice after Peek's stranded and weathered wires. */
const roughness = { handled: 0.85, polished: 1 };

/**
 * Inception field of a surface of the coil, as an interval.
 *
 * A rim of a top load is neither a wire nor a sphere. The figure is the mean of the two laws; the interval runs from the lower law on a handled
 * surface (0.85) to the higher law on a polished one.
 *
 * @param curvatureRadius  [m], the smaller radius of curvature at the point
 * @param air              temperature and pressure count, humidity does not
 * @returns                [V/m], peak
 * @throws OutOfDomain     as `peekInception`
 * @validity  as `peekInception`. A burr, a screw or a breakout point starts first, whatever the top load's own curve
 * @source    peek-1929; roughness from common-practice
 */
export function inceptionField({ curvatureRadius, air }: { curvatureRadius: Metre; air: Air }): {
  value: VoltPerMetre;
  low: VoltPerMetre;
  high: VoltPerMetre;
} {
  const densityFactor = peekDensityFactor(air);
  const wire = peekInception({ shape: "wire", radius: curvatureRadius, densityFactor });
  const sphere = peekInception({ shape: "sphere", radius: curvatureRadius, densityFactor });
  return {
    value: (wire + sphere) / 2,
    low: roughness.handled * Math.min(wire, sphere),
    high: roughness.polished * Math.max(wire, sphere),
  };
}

/** Townsend's coefficients of air: A [1/(Pa·m)], B [V/(Pa·m)] and the yield γ of the cathode. */
const townsend = { A: 11.25, B: 273.75, gamma: 0.01 };

/** [V/(Pa·m)], the range of field over pressure in which A and B were fitted. */
const fitted = { from: 75, to: 600 };

/**
 * Breakdown voltage of a plane air gap, V = B·pd/ln(A·pd/ln(1 + 1/γ)).
 *
 * @param gap       [m]
 * @returns         [V] peak; `fitted` is true where the mean field lies in the range of the coefficients
 * @throws OutOfDomain  pressure × gap at or below the left end of the law, ln(1 + 1/γ)/A = 0.41 Pa·m
 * @validity  uniform field, direct voltage, near room temperature. Above 14 Pa·m, 0.14 mm in room air, it is beyond the fitted range: at 10 mm
 *            it lies 16 % above sphere gaps. Its least voltage is 305 V; experiments quote 327 V
 * @source    paschen
 */
export function paschenVoltage({ pressure, gap }: { pressure: Pascal; gap: Metre }): {
  voltage: Volt;
  fitted: boolean;
} {
  const { A, B, gamma } = townsend;
  const product = pressure * gap;
  const logarithm = Math.log((A * product) / Math.log(1 + 1 / gamma));
  if (!(logarithm > 0)) {
    throw new OutOfDomain("paschenVoltage", `pressure × gap must exceed 0.41 Pa·m, got ${product} Pa·m`);
  }
  const voltage = (B * product) / logarithm;
  const fieldOverPressure = voltage / product;
  return { voltage, fitted: fieldOverPressure >= fitted.from && fieldOverPressure <= fitted.to };
}

/** The least breakdown voltage of air by Paschen's law, e·(B/A)·ln(1 + 1/γ), and the pressure × gap [Pa·m] where it lies. @source paschen */
export function paschenMinimum(): { voltage: Volt; pressureGap: number } {
  const { A, B, gamma } = townsend;
  const pressureGap = (Math.E / A) * Math.log(1 + 1 / gamma);
  return { voltage: B * pressureGap, pressureGap };
}

function requirePositive(where: string, pressure: Pascal, temperature: Kelvin): void {
  if (!(pressure > 0 && temperature > 0)) {
    throw new OutOfDomain(where, `needs positive pressure and temperature, got ${pressure} Pa and ${temperature} K`);
  }
}
