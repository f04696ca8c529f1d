export { cylinder } from "./cylinder.ts";
export { disc } from "./disc.ts";
export { sphere } from "./sphere.ts";
export { toroid } from "./toroid.ts";
