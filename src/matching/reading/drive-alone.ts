/** The drive of a burst read from the primary's current itself, whether or not a free decay follows. */
import type { DampedPole } from "../../numerics/damped-fit.ts";
import type { Burst } from "./bursts.ts";
import { driveStart } from "./drive.ts";
import { driveStop, harmonicPerCycle } from "./drive-phase.ts";
import { stretchOf, varianceOf } from "./stretch.ts";
import type { DriveEdges, SignalChannel } from "./tones.ts";

/** Values to a cycle: a little above what the third harmonic needs. */
const perCycle = 10;
const before = 12;
/** Where two poles are taken to stand about the carrier, as a coil of usual coupling has them; three cycles do not see them closely. */
const polesAbout = [0.94, 1.06];
const usualQ = 60;

/** Undefined where the record begins inside the burst or has too few samples to a cycle. */
export function readDrive({ samples, converter, frequency }: SignalChannel, burst: Burst): DriveEdges | undefined {
  if (burst.cutAtStart) return undefined;
  const step = Math.max(1, Math.floor(1 / (frequency * perCycle)));
  const cycle = 1 / frequency / step;
  if (cycle < harmonicPerCycle) return undefined;
  const stretch = stretchOf(
    { samples, below: converter.below, above: converter.above },
    { from: burst.from - before * cycle * step, to: burst.to + before * cycle * step, step },
  );
  const place = (sample: number) => (sample - stretch.from) / step;
  const quiet = stretch.values
    .subarray(0, Math.max(0, Math.floor(place(burst.from) - 2 * cycle)))
    .filter((value) => Number.isFinite(value));
  const noise = varianceOf(quiet);
  if (noise === undefined) return undefined;
  const offset = quiet.reduce((sum, value) => sum + value, 0) / quiet.length;
  const angular = (2 * Math.PI) / cycle;
  const poles: readonly DampedPole[] = polesAbout.map((part) => ({
    decay: angular / (2 * usualQ),
    angular: part * angular,
  }));
  const terms = poles.map((pole) => ({ ...pole, real: 0, imaginary: 0 }));
  const length = place(burst.to) - place(burst.from);
  const start = driveStart(
    { values: stretch.values, decay: { terms, offset }, decayFrom: 0, noise, cycle, length },
    place(burst.from),
  );
  if (start === undefined) return undefined;
  const filled = stretch.values.map((value) => (Number.isNaN(value) ? 0 : value - offset));
  const stop = driveStop(filled, { from: start.at, to: place(burst.to), cycle });
  const edge = ({ at, error }: { at: number; error: number }) => ({
    at: stretch.from + at * step,
    error: error * step,
  });
  return {
    driveStart: edge(start),
    ...(stop === undefined ? {} : { driveEnd: edge(stop) }),
    gentle: false,
    ...(stop?.after === "returned" ? { returned: true as const } : {}),
  };
}
