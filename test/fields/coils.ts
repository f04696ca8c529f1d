/** Reads the four coils of test/reference/coil-magnetics.json as the program's own shapes. */
import type { Conductor } from "../../src/description/coil.ts";
import type { EvenWinding } from "../../src/fields/inductance.ts";
import type { Ring } from "../../src/parts/shape.ts";

interface DrawnPrimary {
  angle: number;
  turns: number;
  firstTurnDiameter: number;
  pitch: number;
  baseHeight: number;
  conductor: { tube?: number; traceWidth?: number; traceThickness?: number };
}

export function windingOf(secondary: { windingRadius: number; length: number; turns: number }): EvenWinding {
  return { radius: secondary.windingRadius, pitch: secondary.length / secondary.turns, turns: secondary.turns };
}

export function primaryRings(primary: DrawnPrimary): Ring[] {
  const angle = (primary.angle * Math.PI) / 180;
  return Array.from({ length: primary.turns }, (_, i) => ({
    radius: primary.firstTurnDiameter / 2 + i * primary.pitch * Math.cos(angle),
    height: primary.baseHeight + i * primary.pitch * Math.sin(angle),
    share: 1,
  }));
}

export function conductorOf({ conductor }: DrawnPrimary): Conductor {
  if (conductor.tube !== undefined) return { tube: conductor.tube };
  return { trace: { width: conductor.traceWidth!, thickness: conductor.traceThickness! } };
}

/** Current of mode 1 at each turn, base first, per ampere at the base, from its polynomial. */
export function modeCurrent(polynomial: number[], turns: number): Float64Array {
  return Float64Array.from({ length: turns }, (_, j) =>
    polynomial.reduceRight((sum, c) => sum * ((j + 0.5) / turns) + c, 0),
  );
}
