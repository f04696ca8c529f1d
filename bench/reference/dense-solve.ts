/**
 * The plainest way to the same coil, to race against: panels of constant charge, every turn with every turn, dense matrices throughout.
 *
 * No Toeplitz structure, no bases that suit edges, no smaller set of unknowns, nothing kept from one solve to the next. The integrals of two
 * rings are the program's own, so that the methods race and not the kernels; the linear algebra is a general-purpose library.
 */
import { CholeskyDecomposition, EigenvalueDecomposition, LuDecomposition, Matrix } from "ml-matrix";
import type { Coil } from "../../src/description/coil.ts";
import { meanInverseDistance } from "../../src/fields/ring-charge.ts";
import { ringMutual } from "../../src/fields/rings.ts";
import { selfOfRing } from "../../src/fields/rings-self.ts";
import { electricConstant } from "../../src/fields/vacuum.ts";
import { coilGeometry, type WindingGeometry } from "../../src/geometry/coil-geometry.ts";
import { pointOn, type Stretch, stretchLength } from "../../src/geometry/stretch.ts";
import { rings } from "../../src/parts/index.ts";

export interface DenseAnswer {
  readonly f1: number;
  /** Coupling weighted by mode 1's current. */
  readonly couplingMode1: number;
  /** Greatest field on the top load per volt at the top [1/m]. */
  readonly peakFieldPerVolt: number;
}

/** Straight pieces of a meridian, each with one charge density. */
interface Panel {
  readonly r: number;
  readonly z: number;
  /** Half of the piece, as a vector. */
  readonly dr: number;
  readonly dz: number;
  readonly area: number;
}

const bands = 200;
const topPanels = 100;
/** A turn of the primary is a polygon of so many sides. */
const turnSides = 12;

/** Solves a coil with a top load and a primary of round conductor, base first, over the ground plane. */
export function denseSolve(coil: Coil): DenseAnswer {
  const { winding, topload, round } = coilGeometry(coil);
  const windingPanels = panelsOf(winding.stretch, bands);
  const top = topload!.stretches.flatMap((stretch) => panelsOf(stretch, topPanels));
  const earthed = round.flatMap(({ stretches }) => stretches.flatMap((stretch) => panelsOf(stretch, turnSides)));
  const charges = chargesPerVolt([...windingPanels, ...top, ...earthed], top.length);
  const { frequency, voltages, nodeCharges } = firstMode(winding, charges, top.length);
  const topVoltage = voltages[bands]!;
  let peakFieldPerVolt = 0;
  top.forEach(({ area }, i) => {
    const charge = voltages.reduce((sum, volts, node) => sum + charges.get(bands + i, node) * volts, 0);
    peakFieldPerVolt = Math.max(peakFieldPerVolt, Math.abs(charge / (area * electricConstant * topVoltage)));
  });
  return {
    f1: frequency,
    couplingMode1: coupling({ coil, winding, frequency, nodeCharges, voltages }),
    peakFieldPerVolt,
  };
}

function panelsOf(stretch: Stretch, count: number): Panel[] {
  const { piece, from, to } = stretch;
  const at = (i: number) => pointOn(piece, from + ((to - from) * i) / count);
  const length = stretchLength(stretch) / count;
  return Array.from({ length: count }, (_, i) => {
    const [start, end, middle] = [at(i), at(i + 1), at(i + 0.5)];
    return {
      r: middle.r,
      z: middle.z,
      dr: (end.r - start.r) / 2,
      dz: (end.z - start.z) / 2,
      area: 2 * Math.PI * middle.r * length,
    };
  });
}

/** Gauss points over a half panel, drawn to its middle by a square for the panel's own logarithm. */
const gauss = [
  [0.0694318442029737, 0.1739274225687269],
  [0.3300094782075719, 0.3260725774312731],
  [0.6699905217924281, 0.3260725774312731],
  [0.9305681557970263, 0.1739274225687269],
] as const;

/** Mean inverse distance from the middle of one panel to another and to its image. */
function potential(at: Panel, source: Panel): number {
  let sum = 0;
  for (const [node, weight] of gauss) {
    for (const side of [-1, 1]) {
      const along = side * node * node;
      const share = weight * node;
      const r = source.r + along * source.dr;
      const z = source.z + along * source.dz;
      sum += share * (meanInverseDistance(at.r, r, at.z - z) - meanInverseDistance(at.r, r, at.z + z));
    }
  }
  return sum;
}

/** [panels × nodes] charge of each panel per volt on each band, and in the last column on the whole top load. */
function chargesPerVolt(panels: readonly Panel[], topCount: number): Matrix {
  const size = panels.length;
  const coefficients = Matrix.zeros(size, size);
  panels.forEach((target, i) => {
    panels.forEach((source, j) => {
      coefficients.set(i, j, potential(target, source) / (4 * Math.PI * electricConstant));
    });
  });
  const potentials = Matrix.zeros(size, bands + 1);
  for (let i = 0; i < bands; i++) potentials.set(i, i, 1);
  for (let i = bands; i < bands + topCount; i++) potentials.set(i, bands, 1);
  return new LuDecomposition(coefficients).solve(potentials);
}

interface FirstMode {
  readonly frequency: number;
  /** Of every band and of the top load, to one scale. */
  readonly voltages: readonly number[];
  readonly nodeCharges: readonly number[];
}

/** Charge on the nodes drives currents through the turns below them: G·C·v = v/ω² with G = B·L·Bᵀ. */
function firstMode(winding: WindingGeometry, charges: Matrix, topCount: number): FirstMode {
  const nodes = bands + 1;
  const whole = Matrix.zeros(nodes, nodes);
  for (let node = 0; node < nodes; node++) {
    for (let i = 0; i < bands; i++) whole.set(i, node, charges.get(i, node));
    for (let i = bands; i < bands + topCount; i++)
      whole.set(bands, node, whole.get(bands, node) + charges.get(i, node));
  }
  const capacitance = whole.clone().add(whole.transpose()).mul(0.5);
  const carried = chargeAbove(winding.turns);
  const inductance = carried.transpose().mmul(turnByTurn(winding)).mmul(carried);
  const lower = new CholeskyDecomposition(capacitance).lowerTriangularMatrix;
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(
    lower.transpose().mmul(inductance).mmul(lower),
    { assumeSymmetric: true },
  );
  const first = realEigenvalues.indexOf(Math.max(...realEigenvalues));
  const nodeCharges = lower.mmul(Matrix.columnVector(eigenvectorMatrix.getColumn(first)));
  const square = 1 / realEigenvalues[first]!;
  return {
    frequency: Math.sqrt(square) / (2 * Math.PI),
    voltages: inductance.mmul(nodeCharges).mul(square).to1DArray(),
    nodeCharges: nodeCharges.to1DArray(),
  };
}

/** [turns × nodes] the part of each node's charge that stands above each turn. */
function chargeAbove(turns: number): Matrix {
  const carried = Matrix.zeros(turns, bands + 1);
  for (let j = 0; j < turns; j++) {
    const reached = ((j + 0.5) / turns) * bands;
    for (let band = 0; band < bands; band++) carried.set(j, band, Math.min(1, Math.max(0, band + 1 - reached)));
    carried.set(j, bands, 1);
  }
  return carried;
}

function turnByTurn({ radius, pitch, turns, wireDiameter }: WindingGeometry): Matrix {
  const matrix = Matrix.zeros(turns, turns);
  for (let i = 0; i < turns; i++) {
    for (let j = 0; j < turns; j++) {
      const own = i === j;
      matrix.set(
        i,
        j,
        own ? selfOfRing({ radius, equivalentRadius: wireDiameter / 2 }) : ringMutual(radius, radius, (i - j) * pitch),
      );
    }
  }
  return matrix;
}

function coupling({
  coil,
  winding,
  frequency,
  nodeCharges,
  voltages,
}: {
  coil: Coil;
  winding: WindingGeometry;
  frequency: number;
  nodeCharges: readonly number[];
  voltages: readonly number[];
}): number {
  const omega = 2 * Math.PI * frequency;
  const current = chargeAbove(winding.turns)
    .mmul(Matrix.columnVector([...nodeCharges]))
    .mul(omega)
    .to1DArray();
  const baseCurrent = omega * nodeCharges.reduce((sum, charge) => sum + charge, 0);
  const energy = nodeCharges.reduce((sum, charge, i) => sum + charge * voltages[i]!, 0);
  const energyInductance = energy / baseCurrent ** 2;
  const primary = coil.primary!;
  const conductor = "tube" in primary.conductor ? primary.conductor.tube : 0;
  const turns = rings(primary);
  let [inductance, mutual] = [0, 0];
  for (const a of turns) {
    for (const b of turns) {
      inductance +=
        a === b
          ? selfOfRing({ radius: a.radius, equivalentRadius: conductor / 2 })
          : ringMutual(a.radius, b.radius, a.height - b.height);
    }
    current.forEach((amperes, j) => {
      const rise = winding.firstHeight + j * winding.pitch - a.height;
      mutual += (amperes / baseCurrent) * ringMutual(a.radius, winding.radius, rise);
    });
  }
  return mutual / Math.sqrt(inductance * energyInductance);
}
