/** One class for every layer: a test or a caller never has to ask which folder threw it. */
export { OutOfDomain } from "../numerics/out-of-domain.ts";
