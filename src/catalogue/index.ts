export { OutOfDomain } from "./errors.ts";
export { type CrossCheck, type Figure, type FigureParts, type Figures, figure } from "./figure.ts";
export type { Edit, Finding, Place, Remedy, Severity } from "./finding.ts";
export { type Group, groups, type Quantity, quantities } from "./quantities.ts";
export { type Source, type SourceKey, type Standing, sources, standingWords } from "./sources.ts";
