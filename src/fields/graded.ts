/** Quadrature that is fine near one parameter, for kernels that are singular or nearly so there. */
import { gaussLegendre } from "../numerics/gauss.ts";
import { basisRow, type Patch } from "./patch.ts";

/** Points of the part that is drawn towards the singular parameter, the power that draws them, and its width in node spacings. */
const drawnPoints = 16;
const power = 4;
const drawnSpacings = 4;

export interface GradedRule {
  readonly parameters: Float64Array;
  readonly weights: Float64Array;
  /** Basis of the patch at each parameter, [points × nodes]. */
  readonly basis: Float64Array;
}

/**
 * A rule over the whole patch for an integrand with a logarithm, or a near singularity, at `centre`. Next to it t = centre ± width·u⁴
 * makes the logarithm smooth and resolves distances down to about 1e-5 of a node spacing; beyond, plain Gauss points follow the basis.
 */
export function gradedRule(patch: Patch, centre: number): GradedRule {
  const parameters: number[] = [];
  const weights: number[] = [];
  const closed = patch.family === "closed";
  for (const sign of [1, -1]) {
    const span = closed ? 0.5 : sign > 0 ? 1 - centre : centre;
    if (!(span > 0)) continue;
    const width = Math.min(span, drawnSpacings / patch.count);
    const near = gaussLegendre(drawnPoints);
    near.nodes.forEach((u, i) => {
      parameters.push(centre + sign * width * u ** power);
      weights.push(width * power * u ** (power - 1) * near.weights[i]!);
    });
    const rest = span - width;
    if (!(rest > 1e-12)) continue;
    const far = gaussLegendre(Math.ceil(1.2 * patch.count * rest) + 10);
    far.nodes.forEach((u, i) => {
      parameters.push(centre + sign * (width + rest * u));
      weights.push(rest * far.weights[i]!);
    });
  }
  const basis = new Float64Array(parameters.length * patch.count);
  parameters.forEach((t, i) => {
    basisRow(patch, t, basis, i * patch.count);
  });
  return { parameters: Float64Array.from(parameters), weights: Float64Array.from(weights), basis };
}

const selfRules = new Map<string, readonly GradedRule[]>();
const endRules = new Map<string, readonly [GradedRule, GradedRule]>();

/** The rules centred on each node of the patch; they depend on its kind and number of nodes alone and are kept. */
export function selfRulesOf(patch: Patch): readonly GradedRule[] {
  const key = `${patch.family} ${patch.count}`;
  const rules =
    selfRules.get(key) ??
    (patch.family === "closed" ? turned(patch) : Array.from(patch.parameters, (t) => gradedRule(patch, t)));
  selfRules.set(key, rules);
  return rules;
}

/** The rules centred on the start and on the end of an open patch, kept likewise. */
export function endRulesOf(patch: Patch): readonly [GradedRule, GradedRule] {
  const key = `${patch.family} ${patch.count}`;
  const rules = endRules.get(key) ?? ([gradedRule(patch, 0), gradedRule(patch, 1)] as const);
  endRules.set(key, rules);
  return rules;
}

/** On a closed curve every node's rule is the first one's, turned. */
function turned(patch: Patch): GradedRule[] {
  const { count } = patch;
  const first = gradedRule(patch, 0);
  const points = first.parameters.length;
  return Array.from({ length: count }, (_, i) => {
    const basis = new Float64Array(first.basis.length);
    for (let f = 0; f < points; f++) {
      for (let j = 0; j < count; j++) basis[f * count + ((j + i) % count)] = first.basis[f * count + j]!;
    }
    return { parameters: first.parameters.map((t) => t + i / count), weights: first.weights, basis };
  });
}
