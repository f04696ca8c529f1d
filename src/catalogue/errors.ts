/** The error for programmers, under the name by which every layer above finds it. */
export { OutOfDomain } from "../numerics/out-of-domain.ts";
