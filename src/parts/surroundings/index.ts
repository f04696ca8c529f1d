export { ceiling } from "./ceiling.ts";
export { person } from "./person.ts";
export { rod } from "./rod.ts";
export { strikeRing } from "./strike-ring.ts";
export { wall } from "./wall.ts";
