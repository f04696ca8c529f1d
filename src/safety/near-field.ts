/** Fields around the coil with nobody in them: charges with their images, turns without. */
import { OutOfDomain } from "../catalogue/errors.ts";
import { fieldOfRing } from "../fields/rings-field.ts";
import { coulombFactor, magneticConstant } from "../fields/vacuum.ts";
import type { Ampere, Coulomb, Hertz, Metre, VoltPerMetre } from "../units/si.ts";

/** A charge on the axis [C peak], at a height above the ground plane. */
export interface Charge {
  readonly charge: Coulomb;
  readonly height: Metre;
}

/** Turns at one place with their current [A peak]; `turns` counts them. */
export interface Turns {
  readonly radius: Metre;
  readonly height: Metre;
  readonly turns: number;
  readonly current: Ampere;
}

/**
 * Electric field of charges on the axis over a conducting ground plane.
 *
 * Over the plane itself it is E = 2qh/(4π·ε0·(r² + h²)^1.5) for each charge.
 *
 * @param radius  [m], > 0, from the axis
 * @param height  [m], ≥ 0, above the plane
 * @returns       [V/m], magnitude, peak where the charges are peaks
 * @throws OutOfDomain  radius not positive or height negative
 * @validity  r ≪ c/(2πf) and some times the size of the top load; walls, people and the earthed primary left out (the last lowers it)
 * @source    charges-and-images
 */
export function electricField(
  charges: readonly Charge[],
  { radius, height }: { radius: Metre; height: Metre },
): VoltPerMetre {
  if (!(radius > 0 && height >= 0)) {
    throw new OutOfDomain("electricField", `needs radius > 0 and height ≥ 0, got ${radius} m and ${height} m`);
  }
  let [across, up] = [0, 0];
  for (const { charge, height: at } of charges) {
    const above = (radius ** 2 + (height - at) ** 2) ** -1.5;
    const below = (radius ** 2 + (height + at) ** 2) ** -1.5;
    across += charge * radius * (above - below);
    up += charge * ((height - at) * above - (height + at) * below);
  }
  return coulombFactor * Math.hypot(across, up);
}

/**
 * Magnetic field of coaxial turns in free space.
 *
 * @returns   [A/m], magnitude, peak where the currents are peaks
 * @throws OutOfDomain  as `fieldOfRing`: the point lies on a turn
 * @validity  currents in phase; a conducting floor lowers it far away and is left out
 * @source    biot-savart
 */
export function magneticField(turns: readonly Turns[], { radius, height }: { radius: Metre; height: Metre }): number {
  let [across, up] = [0, 0];
  for (const { radius: at, height: level, turns: count, current } of turns) {
    const { radial, axial } = fieldOfRing({ radius: at, pointRadius: radius, pointHeight: height - level });
    across += count * current * radial;
    up += count * current * axial;
  }
  return Math.hypot(across, up) / magneticConstant;
}

/**
 * Farthest distance at which a field still reaches a level: looked for from outside, so that no ring of lower field hides it.
 *
 * @param field  [field at a distance], falling far away
 * @param from   [m], nearest that is looked at
 * @param to     [m], farthest
 * @returns      [m]; `from` where the field is below the level everywhere, `to` where it is above it even there
 */
export function farthestOver({
  field,
  level,
  from,
  to,
}: {
  field: (distance: Metre) => number;
  level: number;
  from: Metre;
  to: Metre;
}): Metre {
  const steps = 60;
  const ratio = (to / from) ** (1 / steps);
  let outside = to;
  if (field(outside) >= level) return to;
  for (let step = 1; step <= steps; step++) {
    const at = step === steps ? from : to / ratio ** step;
    if (field(at) >= level) {
      let [inner, outer] = [at, outside];
      while (outer - inner > 1e-4 * outer) {
        const middle = (inner + outer) / 2;
        if (field(middle) >= level) inner = middle;
        else outer = middle;
      }
      return outer;
    }
    outside = at;
  }
  return from;
}

/** Distance up to which a field may be taken as quasi-static [m]: a tenth of wavelength / 2π. */
export const quasiStaticTo = (frequency: Hertz): Metre => 0.1 * reducedWavelength(frequency);

/** Wavelength / 2π [m]; 239 m at 200 kHz. */
export const reducedWavelength = (frequency: Hertz): Metre => 299792458 / (2 * Math.PI * frequency);

/**
 * Field at the floor far from a short vertical source over a conducting plane.
 *
 *   E = 2·Σqh/(4π·ε0·r³) · |1 − (kr)² + j·kr|
 *
 * @returns [V/m], peak where the charges are peaks
 * @throws OutOfDomain  distance or frequency is not positive
 * @source short-source-over-ground
 */
export function farField(
  charges: readonly Charge[],
  { distance, frequency }: { distance: Metre; frequency: Hertz },
): VoltPerMetre {
  if (!(distance > 0 && frequency > 0)) {
    throw new OutOfDomain("farField", `needs distance and frequency > 0, got ${distance} m and ${frequency} Hz`);
  }
  const moment = charges.reduce((sum, { charge, height }) => sum + charge * height, 0);
  const turns = distance / reducedWavelength(frequency);
  return ((2 * coulombFactor * moment) / distance ** 3) * Math.hypot(1 - turns ** 2, turns);
}

/**
 * Published emission limit at a frequency, for comparison; no legal advice.
 * @returns [V/m] at a distance [m]; undefined outside 9 kHz to 30 MHz
 * @source fcc-15-209
 */
export function emissionLimit(
  frequency: Hertz,
): { readonly level: VoltPerMetre; readonly distance: Metre } | undefined {
  const kilohertz = frequency / 1e3;
  if (kilohertz < 9 || kilohertz > 30e3) return undefined;
  if (kilohertz < 490) return { level: 2400e-6 / kilohertz, distance: 300 };
  if (kilohertz < 1705) return { level: 24000e-6 / kilohertz, distance: 30 };
  return { level: 30e-6, distance: 30 };
}
