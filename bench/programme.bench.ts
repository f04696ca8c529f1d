/** A long song planned with its thermal history, against a march that sums every pulse's warming for itself. */
import type { Note, Song } from "../src/description/song.ts";
import { costAt, type Load, type ProgrammeLimits, planSong, type Shaping } from "../src/programme/index.ts";
import type { Race } from "./race.ts";

const minutes = 10;
const count = 40_000;

/** Four voices, notes of a fifteenth of a second and more, keys by a rule that does not repeat soon. */
const notes: readonly Note[] = Array.from({ length: count }, (_, n): Note => {
  const voice = n % 4;
  const start = Math.floor(n / 4) * ((60 * minutes) / (count / 4));
  return {
    voice,
    start,
    end: start + 0.05,
    pitch: [36, 48, 55, 60][voice]! + ((n * 7 + (n >> 5) * 3) % 17),
    velocity: 0.4 + (0.6 * (n % 13)) / 13,
    level: 1,
    sound: voice === 3 && n % 3 === 0 ? "noise" : "tone",
    bends: [],
    swells: [],
  };
});
const song: Song = { voices: [0, 1, 2, 3].map((n) => ({ name: `voice ${n}` })), notes, duration: 60 * minutes };

const limits: ProgrammeLimits = {
  onTime: 150e-6,
  gap: 250e-6,
  rate: 1200,
  duty: 0.04,
  power: 900,
  bus: 160,
  junction: {
    terms: [
      [0.12, 1e-3],
      [0.25, 20e-3],
      [0.1, 0.3],
      [0.9, 60],
    ],
    ambient: 298,
    most: 423,
  },
  capacitor: { terms: [[12, 120]], ambient: 293, most: 308 },
};
const table = (most: number) => ({
  step: 10e-6,
  values: Float64Array.from({ length: 16 }, (_, n) => most * (n / 15) ** 1.7),
  exponents: new Float64Array(16).fill(2),
});
const load: Load = {
  costs: { drawn: table(1.2), switchLoss: table(0.02), bankLoss: table(0.0015) },
  bus: { voltage: 325, capacitance: 3e-3, refill: 10e-3 },
};
const shaping: Shaping = {
  range: { longest: 120e-6, softest: 36e-6 },
  least: 18e-6,
  priorities: [],
  muted: new Set(),
  shift: 50,
  seed: 1,
  equalLoudness: true,
};

const planned = planSong(song, { limits, shaping, load });
/** The march is quadratic: over this many pulses only, and as often as they go into the song. */
const part = 2_000;
const { course } = planned;

/** Junction at the end of each pulse as the sum of what every pulse before it has left. */
function superposed(): number {
  let hottest = 0;
  const pulses = Math.min(part, course.start.length);
  for (let n = 0; n < pulses; n++) {
    const now = course.start[n]! + course.onTime[n]!;
    let temperature = limits.junction!.ambient;
    for (let m = 0; m <= n; m++) {
      const power = costAt(load.costs.switchLoss, course.onTime[m]!, course.bus[m]! / 325) / course.onTime[m]!;
      for (const [r, tau] of limits.junction!.terms) {
        const ended = (now - course.start[m]! - course.onTime[m]!) / tau;
        const began = (now - course.start[m]!) / tau;
        temperature += power * r * (Math.exp(-ended) - Math.exp(-began));
      }
    }
    hottest = Math.max(hottest, temperature);
  }
  return hottest;
}

export default [
  {
    name: "a song of ten minutes and 40 000 notes, planned with its thermal history",
    candidate: () => planSong(song, { limits, shaping, load }),
    reference: superposed,
    against: `the warming of its first ${part} pulses summed pulse by pulse`,
    atMost: 6,
    rounds: 5,
    beside: ({ candidate, reference }) => {
      const pulses = course.start.length;
      // Pairs of pulses grow with the square.
      const whole = (reference * (pulses / part) ** 2) / 1e3;
      return [
        `${planned.schedule.start.length} pulses wanted, ${pulses} sent, in ${(candidate / 1e3).toFixed(2)} s`,
        `all ${pulses} summed in that way would take ${whole.toFixed(0)} s: ${(whole / (candidate / 1e3)).toFixed(0)} times as long`,
      ];
    },
  },
] satisfies readonly Race[];
