/**
 * The library: a coil file in, figures, findings and drawings out.
 *
 *     const file = readCoil(text);
 *     if (file.coil !== undefined) {
 *       const solution = solve(file.coil);
 *       const findings = assess({ file, solution });
 *     }
 *
 * Numbers are SI throughout. Nothing here touches files, clock or screen.
 * @packageDocumentation
 */

export type {
  CrossCheck,
  Edit,
  Figure,
  Figures,
  Finding,
  Place,
  Remedy,
  Severity,
} from "./catalogue/index.ts";
export * as catalogue from "./catalogue/index.ts";
export type { Coil, CoilFile, Provenance, Provenances } from "./description/index.ts";
export * as description from "./description/index.ts";
export { assess, type Rule, rules } from "./findings/index.ts";
export * as parts from "./parts/index.ts";
export { readCoil } from "./readers/coil-file.ts";
export * as units from "./units/index.ts";
export { type Drawing, drawing } from "./views/drawing.ts";
export type { Detuning, FieldMap, ModeProfile, PeakField, PoleTrack, Solution } from "./workbench/contract.ts";
export { type Contribution, type Doubt, type Doubts, intervals } from "./workbench/doubts.ts";
export { type Explanation, explain } from "./workbench/explain.ts";
export { solve } from "./workbench/solve.ts";
