/** The clock of the firmware: a 16 MHz controller counts ticks of half a microsecond. */
import type { Second } from "../../units/si.ts";

export const clockFrequency = 16e6;
export const ticksPerSecond = 2e6;
/** Periods are counted finer than ticks, so that a long note does not drift. */
export const fractionsPerTick = 4096;

/** Nearest tick. */
export const toTicks = (time: Second): number => Math.round(time * ticksPerSecond);
/** The last whole tick within a time: for limits from above. The small allowance takes back what decimal fractions lose. */
export const ticksWithin = (time: Second): number => Math.floor(time * ticksPerSecond + 1e-6);
/** The first whole tick that is not shorter than a time: for limits from below. */
export const ticksCovering = (time: Second): number => Math.ceil(time * ticksPerSecond - 1e-6);
