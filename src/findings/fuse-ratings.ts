import type { Ampere } from "../units/si.ts";

/** Ratings of fuses that are sold [A]. From memory. */
const ratings: readonly Ampere[] = [0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 32];

/** The smallest fuse that is sold for a current; undefined above the largest. */
export const fuseFor = (current: Ampere): Ampere | undefined => ratings.find((rating) => rating >= current);
