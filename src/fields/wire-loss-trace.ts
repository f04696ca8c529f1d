/** Flat traces of a printed primary: how the current spreads across each, and what it loses. */
import { factorise, solveFactored } from "../numerics/lu.ts";
import { OutOfDomain } from "../numerics/out-of-domain.ts";
import type { Ring } from "../parts/shape.ts";
import type { Henry, Hertz, Metre, Ohm } from "../units/si.ts";
import { ringMutual } from "./rings.ts";
import { equivalentRadiusOfTrace, selfOfRing } from "./rings-self.ts";
import { type OhmMetre, skinDepth } from "./wire-loss.ts";

export interface TraceLoss {
  readonly resistanceAc: Ohm;
  /** With the current where it really flows; 1–3 % below the inductance at uniform current. */
  readonly inductance: Henry;
}

interface Traces {
  readonly rings: readonly Ring[];
  /** Edges of the strips from the centre line [m]. */
  readonly offsets: Float64Array;
  readonly thickness: Metre;
  /** By turn [H]: what the self-inductance of an arc has beyond its share of the full turn's. */
  readonly arcExcess: Float64Array;
}

/** Strips across each trace, narrower toward its edges: 14, fewer where more than eleven turns would make the system slow, never below 8. */
function stripsFor(turns: number): number {
  return Math.max(8, Math.min(14, Math.floor(160 / turns)));
}

/**
 * Resistance and inductance of flat traces in series, lying in planes across the axis.
 *
 * Each trace is cut into concentric strips. All strips of a trace share one voltage, their currents add up to the common current, and
 *
 *   R_i·I_i + iω·Σ M_ij·I_j = V_trace
 *
 * which gives the crowding toward the edges (skin effect), toward the inner edge (curvature) and away from the neighbours (proximity) at
 * once. Over its thickness a strip has the resistance of a sheet fed from both faces, Re[(1 + i)·ρ/(2δ)·coth((1 + i)·t/(2δ))] per square.
 *
 * @param rings      turns in series, centre lines; shares as in `ringSetInductance`
 * @param width      [m], across the trace, in the plane of the turn
 * @param thickness  [m], at most a tenth of the width
 * @throws OutOfDomain  no rings, sides not positive, thickness above width/10, a trace over the axis or over another trace
 * @validity  against a solution that also resolves the thickness (straight traces): within 0.3 % up to one skin depth, 3 % high at two, 30 % high
 *            at 4.5. Beyond eleven turns the coarser strips cost up to 1 %, more for traces over 80 skin depths wide. Solder mask,
 *            plating, roughness and the loss in the board are left out.
 * @source    mesh analysis of conductors cut into filaments; the sheet: skin-effect-bessel in its plane limit
 */
export function traceLoss({
  rings,
  width,
  thickness,
  frequency,
  resistivity,
}: {
  rings: readonly Ring[];
  width: Metre;
  thickness: Metre;
  frequency: Hertz;
  resistivity: OhmMetre;
}): TraceLoss {
  check(rings, width, thickness);
  const omega = 2 * Math.PI * frequency;
  const square = sheetResistance({ thickness, depth: skinDepth({ frequency, resistivity }), resistivity });
  const strips = stripsFor(rings.length);
  const offsets = edges(width, strips);
  const traces: Traces = { rings, offsets, thickness, arcExcess: arcExcesses(rings, width, thickness) };
  const count = rings.length * strips;
  const size = 2 * (count + rings.length);
  const system = new Float64Array(size * size);
  const half = count + rings.length;
  // Rows and columns: the strip currents and then the trace voltages, real parts first, imaginary parts in the second half.
  for (let i = 0; i < count; i++) {
    const ring = rings[Math.floor(i / strips)]!;
    const strip = i % strips;
    const radius = ring.radius + centre(offsets, strip);
    const squares = (2 * Math.PI * radius * ring.share) / (offsets[strip + 1]! - offsets[strip]!);
    add(system, half, i, i, squares * square, 0);
    for (let j = 0; j <= i; j++) {
      const reactance = omega * stripMutual(traces, i, j);
      add(system, half, i, j, 0, reactance);
      if (j < i) add(system, half, j, i, 0, reactance);
    }
    const trace = count + Math.floor(i / strips);
    add(system, half, i, trace, -1, 0);
    add(system, half, trace, i, 1, 0);
  }
  const sides = new Float64Array(size);
  for (let t = 0; t < rings.length; t++) sides[count + t] = 1;
  const solved = solveFactored(factorise(system, size), sides, 1);
  let re = 0;
  let im = 0;
  for (let t = 0; t < rings.length; t++) {
    re += solved[count + t]!;
    im += solved[half + count + t]!;
  }
  return { resistanceAc: re, inductance: im / omega };
}

function check(rings: readonly Ring[], width: Metre, thickness: Metre): void {
  if (!(rings.length > 0 && width > 0 && thickness > 0 && thickness <= width / 10)) {
    const got = `${rings.length} rings, ${width} m × ${thickness} m`;
    throw new OutOfDomain("traceLoss", `needs rings and 0 < thickness ≤ width/10, got ${got}`);
  }
  for (const [i, a] of rings.entries()) {
    if (a.radius <= width / 2) throw new OutOfDomain("traceLoss", `the trace of radius ${a.radius} m crosses the axis`);
    for (let j = 0; j < i; j++) {
      const b = rings[j]!;
      if (Math.abs(a.height - b.height) < thickness && Math.abs(a.radius - b.radius) < width) {
        throw new OutOfDomain("traceLoss", `the traces of radius ${b.radius} m and ${a.radius} m overlap`);
      }
    }
  }
}

function arcExcesses(rings: readonly Ring[], width: Metre, thickness: Metre): Float64Array {
  const equivalentRadius = equivalentRadiusOfTrace({ width, thickness });
  return Float64Array.from(rings, ({ radius, share }) => {
    return selfOfRing({ radius, share, equivalentRadius }) - share * selfOfRing({ radius, equivalentRadius });
  });
}

/** Edges of the strips from the centre line [m], strips + 1 of them, crowded like cos toward the outside. */
function edges(width: Metre, strips: number): Float64Array {
  return Float64Array.from({ length: strips + 1 }, (_, k) => -0.5 * width * Math.cos((Math.PI * k) / strips));
}

function centre(offsets: Float64Array, strip: number): number {
  return 0.5 * (offsets[strip]! + offsets[strip + 1]!);
}

/** Re[(1 + i)·ρ/(2δ)·coth((1 + i)·t/(2δ))] [Ω per square]. Its reactance stays with the inductance of the filled sections: ωµ0·t/12 to 2δ. */
function sheetResistance({
  thickness,
  depth,
  resistivity,
}: {
  thickness: Metre;
  depth: Metre;
  resistivity: OhmMetre;
}): Ohm {
  const x = thickness / depth;
  const face = resistivity / (2 * depth);
  return x > 40 ? face : (face * (Math.sinh(x) + Math.sin(x))) / (Math.cosh(x) - Math.cos(x));
}

/** Inductance between two strips [H], shares included. */
function stripMutual(trace: Traces, i: number, j: number): number {
  const { rings, offsets, thickness, arcExcess } = trace;
  const strips = offsets.length - 1;
  const turnA = Math.floor(i / strips);
  const turnB = Math.floor(j / strips);
  const a = rings[turnA]!;
  const b = rings[turnB]!;
  const radiusA = a.radius + centre(offsets, i % strips);
  const radiusB = b.radius + centre(offsets, j % strips);
  if (a !== b) return a.share * b.share * ringMutual(radiusA, radiusB, a.height - b.height);
  // M(a, b, 0) = M(√(ab), √(ab), |a − b|) exactly; the mean logarithmic distance of the two sections takes the place of |a − b|.
  const distance = Math.exp(meanLogarithm(offsets, i % strips, j % strips, thickness));
  const mean = Math.sqrt(radiusA * radiusB);
  return a.share * ringMutual(mean, mean, distance) + arcExcess[turnA]!;
}

/**
 * Mean of ln √((x − x')² + (y − y')²) over two strips as rectangles of one thickness: fourth differences of
 * F(x, y) = −(x⁴ − 6x²y² + y⁴)/24·ln √(x² + y²) + xy/6·(x²·atan(y/x) + y²·atan(x/y)) − 25/48·x²y².
 */
function meanLogarithm(offsets: Float64Array, a: number, b: number, thickness: Metre): number {
  const [a0, a1, b0, b1] = [offsets[a]!, offsets[a + 1]!, offsets[b]!, offsets[b + 1]!];
  const G = (x: number) => 2 * (logarithmAntiderivative(x, 0) - logarithmAntiderivative(x, thickness));
  const area = (a1 - a0) * (b1 - b0) * thickness * thickness;
  return (G(a1 - b1) - G(a1 - b0) - G(a0 - b1) + G(a0 - b0)) / area;
}

function logarithmAntiderivative(x: number, y: number): number {
  const square = x * x + y * y;
  if (square === 0) return 0;
  const angle = Math.atan2(Math.abs(y), Math.abs(x));
  const sides = x * x * angle + y * y * (0.5 * Math.PI - angle);
  const logarithm = ((6 * x * x * y * y - x ** 4 - y ** 4) / 48) * Math.log(square);
  return logarithm + (Math.abs(x * y) / 6) * sides - (25 / 48) * x * x * y * y;
}

/** Adds a complex entry to the real form [Re −Im; Im Re] of the system. */
function add(system: Float64Array, half: number, row: number, column: number, re: number, im: number): void {
  const size = 2 * half;
  system[row * size + column]! += re;
  system[row * size + half + column]! -= im;
  system[(half + row) * size + column]! += im;
  system[(half + row) * size + half + column]! += re;
}
