/** How long a pulse of a note is: from how hard the key was struck, how loud its channel is and how the ear hears its pitch. */
import type { Hertz, Ratio, Second } from "../units/si.ts";
import { frequencyOf } from "./pitch.ts";

/** Corner frequencies of the A-weighting [Hz]. */
const corners = [20.598997, 107.65265, 737.86223, 12194.217] as const;

function responseA(frequency: Hertz): number {
  const f2 = frequency * frequency;
  const [low, second, third, high] = corners.map((corner) => corner * corner) as [number, number, number, number];
  return (high * f2 * f2) / ((f2 + low) * Math.sqrt((f2 + second) * (f2 + third)) * (f2 + high));
}

/**
 * Frequency weighting A as a factor of amplitude, 1 at 1 kHz.
 *
 *   R(f) = f4²·f⁴ / [(f² + f1²)·√((f² + f2²)·(f² + f3²))·(f² + f4²)],   A = R(f)/R(1 kHz)
 *
 * @param frequency  [Hz], > 0
 * @source  iec-61672-1, annex E
 */
export function weightingA(frequency: Hertz): Ratio {
  return responseA(frequency) / responseA(1000);
}

/** Harmonics of a train of clicks are counted up to here [Hz]: a click of some tens of microseconds has little above. */
const highestHarmonic: Hertz = 12e3;
/** The pitch whose trains need the longest pulses; lower ones get no more. */
const reference = 36;

/**
 * Amplitude of a train of short clicks as the ear weighs it, for pulses of one length: harmonics of equal amplitude f·(click), each through
 * weighting A, added as powers.
 */
function heard(frequency: Hertz): number {
  let power = 0;
  for (let harmonic = frequency; harmonic <= highestHarmonic; harmonic += frequency) power += weightingA(harmonic) ** 2;
  return frequency * Math.sqrt(power);
}

const table = Float64Array.from({ length: 129 }, (_, pitch) =>
  Math.min(1, heard(frequencyOf(reference)) / heard(frequencyOf(pitch))),
);

/**
 * What part of the reference's amplitude a click needs so that trains of all pitches are equally loud by weighting A; 1 at and below key 36.
 * It falls about with the root of the frequency, since a higher train has more clicks in a second.
 *
 * @param pitch  [semitones]
 * @validity  a click's spectrum is taken as flat up to 12 kHz
 * @source  iec-61672-1; the sum over harmonics is this project's own
 */
export function equalLoudness(pitch: number): Ratio {
  const at = Math.min(127.999, Math.max(0, pitch));
  const below = Math.floor(at);
  return table[below]! + (at - below) * (table[below + 1]! - table[below]!);
}

/** Between these the on-time moves: a pulse too short does not break out, and is not heard. */
export interface OnTimeRange {
  readonly longest: Second;
  /** Of the softest note. */
  readonly softest: Second;
}

/**
 * On-time of a pulse: softest + (longest − softest)·velocity²·level²·equal loudness. The squares are the usual 40 dB per decade of key velocity
 * and channel volume, with sound pressure taken as proportional to what the on-time is above the softest.
 *
 * @param velocity, level  0 to 1
 * @source  midi-level-curve; iec-61672-1
 */
export function onTimeOf({
  range: { longest, softest },
  velocity,
  level,
  weight,
}: {
  range: OnTimeRange;
  velocity: Ratio;
  level: Ratio;
  /** From `equalLoudness`. */
  weight: Ratio;
}): Second {
  const amplitude = velocity * level;
  return softest + (longest - softest) * Math.min(1, amplitude * amplitude) * weight;
}
