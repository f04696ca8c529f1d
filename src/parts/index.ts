export {
  type ConductorCase,
  conductorCases,
  conductorExtent,
  conductorOutline,
  type TopLoadCase,
  topLoadCases,
  topLoadKind,
  topLoadOutline,
  topLoadProblem,
} from "./case-of.ts";
export * as conductors from "./conductors/index.ts";
export type { ConductorPart, ShapeProblem, SurroundingPart, TopLoadPart, TurnPlace } from "./define.ts";
export { rings, unusedRings, type WoundSize, wound } from "./primaries/index.ts";
export { boundsOf, circle, endsOf, line, type Outline, type Piece, type Point, type Ring } from "./shape.ts";
export * as surroundings from "./surroundings/index.ts";
export * as topLoads from "./toploads/index.ts";
