/** Quadrature that is fine near one parameter, for kernels that are singular or nearly so there. */
import { gaussLegendre } from "../numerics/gauss.ts";
import { basisRow, type Patch } from "./patch.ts";

/** Points a side of the singular parameter, and the power that draws them towards it. */
const pointsEachSide = 20;
const power = 4;

export interface GradedRule {
  readonly parameters: Float64Array;
  readonly weights: Float64Array;
  /** Basis of the patch at each parameter, [points × nodes]. */
  readonly basis: Float64Array;
}

/**
 * A rule over the whole patch for an integrand with a logarithm at `centre`: t = centre ± span·u⁴ makes it three times smooth, and
 * draws points in by (1/20)⁸, so a kernel nearly singular at that distance from the patch is resolved too.
 */
export function gradedRule(patch: Patch, centre: number): GradedRule {
  const { nodes, weights: gauss } = gaussLegendre(pointsEachSide);
  const count = 2 * pointsEachSide;
  const parameters = new Float64Array(count);
  const weights = new Float64Array(count);
  const basis = new Float64Array(count * patch.count);
  const below = patch.closed ? 0.5 : centre;
  const above = patch.closed ? 0.5 : 1 - centre;
  for (let i = 0; i < pointsEachSide; i++) {
    const u = nodes[i]!;
    const drawn = u ** power;
    const slope = power * u ** (power - 1) * gauss[i]!;
    parameters[i] = centre + above * drawn;
    weights[i] = above * slope;
    parameters[pointsEachSide + i] = centre - below * drawn;
    weights[pointsEachSide + i] = below * slope;
  }
  for (let i = 0; i < count; i++) basisRow(patch, parameters[i]!, basis, i * patch.count);
  return { parameters, weights, basis };
}

const selfRules = new Map<string, readonly GradedRule[]>();

/** The rules centred on each node of the patch; they depend on its kind and number of nodes alone and are kept. */
export function selfRulesOf(patch: Patch): readonly GradedRule[] {
  const key = `${patch.closed ? "closed" : "open"} ${patch.count}`;
  let rules = selfRules.get(key);
  if (!rules) {
    rules = Array.from(patch.parameters, (t) => gradedRule(patch, t));
    selfRules.set(key, rules);
  }
  return rules;
}
