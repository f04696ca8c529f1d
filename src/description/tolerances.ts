/** The tolerance that applies where the file writes none, by kind of quantity and origin. Common practice, no source. */
import type { ToleranceKind } from "../catalogue/keys.ts";
import type { Origin } from "../units/quantity.ts";

/** Half-width that holds 95 %: the greater of a part of the value and an absolute floor in SI units. */
export interface DefaultTolerance {
  readonly part: number;
  readonly floor: number;
}

type Row = Readonly<Record<Origin, DefaultTolerance>>;
const of = (part: number, floor = 0): DefaultTolerance => ({ part, floor });

/**
 * Common practice, no source: what a steel rule, a caliper, a hobby LCR meter, a data sheet's column and a rough guess are usually good for.
 * `wire`: diameters and thicknesses that a micrometer measures. `room`: distances that a tape measures. `dissipation`: loss factors.
 */
export const defaultTolerances: Readonly<Record<ToleranceKind, Row>> = {
  length: {
    measured: of(0.002, 0.2e-3),
    datasheet: of(0.01, 0.1e-3),
    drawn: of(0.005, 0.5e-3),
    guessed: of(0.1, 1e-3),
  },
  wire: { measured: of(0.005, 3e-6), datasheet: of(0.02, 2e-6), drawn: of(0.02, 3e-6), guessed: of(0.05, 5e-6) },
  room: { measured: of(0.01, 10e-3), datasheet: of(0.02, 20e-3), drawn: of(0.03, 50e-3), guessed: of(0.15, 50e-3) },
  area: { measured: of(0.03), datasheet: of(0.05), drawn: of(0.05), guessed: of(0.2) },
  time: { measured: of(0.02), datasheet: of(0.1), drawn: of(0.02), guessed: of(0.3) },
  frequency: { measured: of(0.001), datasheet: of(0.01), drawn: of(0.005), guessed: of(0.1) },
  inductance: { measured: of(0.03), datasheet: of(0.2), drawn: of(0.1), guessed: of(0.5) },
  capacitance: { measured: of(0.01), datasheet: of(0.1), drawn: of(0.1), guessed: of(0.2) },
  resistance: { measured: of(0.02), datasheet: of(0.05), drawn: of(0.05), guessed: of(0.5) },
  voltage: { measured: of(0.01), datasheet: of(0.05), drawn: of(0.05), guessed: of(0.15) },
  current: { measured: of(0.02), datasheet: of(0.05), drawn: of(0.05), guessed: of(0.15) },
  power: { measured: of(0.05), datasheet: of(0.1), drawn: of(0.1), guessed: of(0.3) },
  energy: { measured: of(0.1), datasheet: of(0.2), drawn: of(0.2), guessed: of(0.5) },
  charge: { measured: of(0.05), datasheet: of(0.2), drawn: of(0.2), guessed: of(0.5) },
  temperature: { measured: of(0, 1), datasheet: of(0, 2), drawn: of(0, 5), guessed: of(0, 5) },
  pressure: { measured: of(0.002), datasheet: of(0.01), drawn: of(0.02), guessed: of(0.03) },
  thermalResistance: { measured: of(0.1), datasheet: of(0.15), drawn: of(0.2), guessed: of(0.4) },
  fluxDensity: { measured: of(0.05), datasheet: of(0.1), drawn: of(0.1), guessed: of(0.2) },
  angle: { measured: of(0, 0.01), datasheet: of(0, 0.01), drawn: of(0, 0.01), guessed: of(0, 0.1) },
  ratio: { measured: of(0.05), datasheet: of(0.1), drawn: of(0.1), guessed: of(0.4) },
  dissipation: { measured: of(0.2), datasheet: of(0.5), drawn: of(0.5), guessed: of(1) },
  // Limits and settings that somebody chose: they are what they are.
  none: { measured: of(0), datasheet: of(0), drawn: of(0), guessed: of(0) },
};

/**
 * Half-width [SI] that holds 95 % where none is written. Never more than half of the value, except for temperatures and angles, so that no
 * default makes a size reach zero.
 */
export function defaultTolerance({
  kind,
  origin,
  value,
}: {
  kind: ToleranceKind;
  origin: Origin;
  value: number;
}): number {
  const { part, floor } = defaultTolerances[kind][origin];
  const wide = Math.max(part * Math.abs(value), floor);
  return kind === "temperature" || kind === "angle" || kind === "dissipation"
    ? wide
    : Math.min(wide, Math.abs(value) / 2);
}
