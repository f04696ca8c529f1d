/** What an instrument shows at each test point without a bus, as lines. */
import type { Bridge, Coil } from "../description/coil.ts";
import { gateStepAt } from "../stress/index.ts";
import type { Hertz, Second, Volt } from "../units/si.ts";
import type { ExpectedPicture } from "./bringup-contract.ts";
import { drawn, evenly, trace } from "./bringup-pictures.ts";
import type { Solution } from "./contract.ts";
import { loopsOf, pointOf } from "./match-point.ts";

const count = 400;
type Gate = Bridge["gate"];

/** The rail, and the reservoir above it at low mains and full load, over two cycles of the mains. */
export function railPicture({
  volts,
  dropout,
  trough,
  load,
  reservoir,
  mains,
}: {
  volts: Volt;
  dropout: Volt;
  trough: Volt;
  load: number;
  reservoir: number;
  mains: Hertz;
}): ExpectedPicture {
  const half = 1 / (2 * mains);
  const at = evenly({ from: 0, to: 4 * half, count });
  // Filled in the last fifth of each half-wave, emptied by the load in between.
  const filling = 0.2 * half;
  const fall = (load * (half - filling)) / reservoir;
  const above = at.map((time) => {
    const phase = time % half;
    const left = phase < half - filling ? phase / (half - filling) : 1 - (phase - (half - filling)) / filling;
    return trough + fall * (1 - left);
  });
  const rail = above.map((reached) => Math.min(volts, Math.max(0, reached - dropout)));
  return {
    against: "time",
    unit: "s",
    at: drawn(at),
    traces: [trace("rail", "rail", "V", rail), trace("reservoir", "reservoir, mains 10 % low", "V", above)],
    marks: rail.some((now) => now < volts) ? [{ at: half - filling, says: "the regulator drops out" }] : [],
    note: "the reservoir's fall is straight; how fast it fills depends on the transformer",
  };
}

const swingOf = ({ drive, transformer }: Gate): { low: Volt; swing: Volt } =>
  transformer ? { low: -drive, swing: 2 * drive } : { low: 0, swing: drive };

/** Voltage of one gate at a time, driven from `from` to `to` and off else: the sum of the steps so far. */
function gateAt(gate: Gate, time: Second, edges: readonly { readonly at: Second; readonly up: boolean }[]): Volt {
  const { low, swing } = swingOf(gate);
  const step = { swing, charge: gate.charge, resistor: gate.resistor, leakage: gate.transformer?.leakage ?? 0 };
  if (!(step.resistor + step.leakage > 0)) {
    const last = edges.findLast(({ at }) => at <= time);
    return last?.up ? low + swing : low;
  }
  return edges.reduce((sum, { at, up }) => sum + (up ? 1 : -1) * swing * gateStepAt(time - at, step), low);
}

/** Edges of the two sides of the bridge over some cycles, each turned on late by the dead time. */
function sidesOf({ frequency, deadTime, cycles }: { frequency: Hertz; deadTime: Second; cycles: number }) {
  const half = 1 / (2 * frequency);
  const upper: { at: Second; up: boolean }[] = [];
  const lower: { at: Second; up: boolean }[] = [];
  for (let n = 0; n < 2 * cycles; n++) {
    const from = n * half;
    (n % 2 === 0 ? upper : lower).push({ at: from + deadTime, up: true }, { at: from + half, up: false });
  }
  return { upper, lower, end: 2 * cycles * half };
}

/** Both sides of the bridge, gate against its own emitter; or one alone. */
export function gatePicture(
  { gate, deadTime = 0 }: Bridge,
  { frequency, both }: { frequency: Hertz; both: boolean },
): ExpectedPicture {
  const { upper, lower, end } = sidesOf({ frequency, deadTime, cycles: 2 });
  const at = evenly({ from: 0, to: end, count });
  const shown = (edges: typeof upper) => at.map((time) => gateAt(gate, time, edges));
  return {
    against: "time",
    unit: "s",
    at: drawn(at),
    traces: both
      ? [
          trace("gateUpper", "gate of the upper side", "V", shown(upper)),
          trace("gateLower", "gate of the lower side", "V", shown(lower)),
        ]
      : [trace("gate", "gate against its own emitter", "V", shown(upper))],
    marks: both && deadTime > 0 ? [{ at: end / 4, says: "both off for the dead time" }] : [],
    note: "the gate as one capacitor: the real edge has a shelf in it",
  };
}

/** One rising edge, spread. */
export function gateEdgePicture({ gate }: Bridge, riseTime: Second): ExpectedPicture {
  const at = evenly({ from: -0.5 * riseTime, to: 3 * riseTime, count: count / 2 });
  return {
    against: "time",
    unit: "s",
    at: drawn(at),
    traces: [
      trace(
        "gate",
        "gate against its own emitter",
        "V",
        at.map((time) => gateAt(gate, time, [{ at: 0, up: true }])),
      ),
    ],
    marks: [],
    note: "the gate as one capacitor: the real edge has a shelf in it, and is slower by the driver's own resistance",
  };
}

/** The generator's current through the sense transformer, and the bridge's answer. */
export function sensePicture({ feedback }: Coil, frequency: Hertz): ExpectedPicture | undefined {
  if (!feedback) return undefined;
  const at = evenly({ from: 0, to: 2 / frequency, count });
  const early = feedback.lead - feedback.delay;
  const phase = (time: Second) => Math.sin(2 * Math.PI * frequency * time);
  return {
    against: "time",
    unit: "s",
    at: drawn(at),
    traces: [
      trace("sense", "sense current", "1", at.map(phase)),
      trace(
        "bridge",
        "bridge output",
        "1",
        at.map((time) => (phase(time + early) >= 0 ? 1 : -1)),
      ),
    ],
    marks: [
      {
        at: 1 / (2 * frequency),
        says: early >= 0 ? "the bridge switches before this zero" : "the bridge switches after this zero",
      },
    ],
  };
}

/**
 * Amplitude on an antenna, generator in one turn beside the primary: both poles with the bridge shorted, or f1 alone with the tank open.
 *
 * |I2| ∝ ω·M/|Z1·Z2 + ω²·M²| with the tank closed, 1/|Z2| with it open; over the greatest.
 */
export function sweepPicture(solution: Solution, { tank }: { tank: "shorted" | "open" }): ExpectedPicture | undefined {
  const loops = loopsOf(pointOf(solution.coil, solution, []));
  const of = (id: string): number | undefined => solution.figures.get(id)?.value;
  const [lower, upper, f1] = [of("poles.lower"), of("poles.upper"), of("secondary.f1")];
  if (f1 === undefined || !(loops.q > 0)) return undefined;
  if (tank === "shorted" && (lower === undefined || upper === undefined)) return undefined;
  const lines = tank === "open" ? [f1] : [lower!, upper!];
  const [low, high] = [Math.min(...lines), Math.max(...lines)];
  const margin = tank === "open" ? 12 / loops.q : 0.4 * (high / low - 1) + 0.02;
  // Denser about each line: half of the points within a few widths of it.
  const wide = evenly({ from: low * (1 - margin), to: high * (1 + margin), count: 160 });
  const near = lines.flatMap((line) => [
    ...evenly({ from: line * (1 - 6 / loops.q), to: line * (1 + 6 / loops.q), count: 81 }),
  ]);
  const at = Float64Array.from(new Set(drawn([...wide, ...near]))).sort();
  const amplitude = at.map((frequency) => {
    const omega = 2 * Math.PI * frequency;
    const omega1 = 2 * Math.PI * loops.f1;
    const resistance = (omega1 * loops.energyInductance) / loops.q;
    const own = { re: resistance, im: omega * loops.energyInductance * (1 - (omega1 / omega) ** 2) };
    if (tank === "open") return 1 / Math.hypot(own.re, own.im);
    const omegaTank = 2 * Math.PI * loops.tankFrequency;
    const first = { re: loops.tankResistance, im: omega * loops.tankInductance * (1 - (omegaTank / omega) ** 2) };
    const cross = omega * loops.mutual;
    const re = first.re * own.re - first.im * own.im + cross * cross;
    const im = first.re * own.im + first.im * own.re;
    return cross / Math.hypot(re, im);
  });
  const greatest = Math.max(...amplitude);
  return {
    against: "frequency",
    unit: "Hz",
    at: drawn(at),
    traces: [
      trace(
        "amplitude",
        "amplitude on the antenna, over the greatest",
        "1",
        amplitude.map((value) => value / greatest),
      ),
    ],
    marks:
      tank === "open"
        ? [{ at: f1, says: "f1" }]
        : [
            { at: low, says: "lower pole" },
            { at: high, says: "upper pole" },
          ],
    note: "generator and probe loading nothing; a stiff generator or a near probe makes the peaks broader and lower",
  };
}
