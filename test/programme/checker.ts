/** The limits of a schedule, checked from their definitions alone: brute force, quadratic, nothing of the planner's own but its types. */
import type { CostTable, Load, ProgrammeLimits, Schedule } from "../../src/programme/index.ts";

/** Rounding, in times [s] and in parts of a limit. */
const instant = 1.01e-9;
const nearly = 1 + 1e-9;

interface Pulse {
  readonly start: number;
  readonly onTime: number;
}

/** @returns a sentence for every limit that is broken */
export function brokenLimits(schedule: Schedule, limits: ProgrammeLimits, load?: Load): string[] {
  const sent: Pulse[] = [];
  schedule.start.forEach((start, n) => {
    const onTime = schedule.onTime[n]!;
    if (onTime > 0) sent.push({ start, onTime });
  });
  const broken = [...spacing(sent, limits), ...windows(sent, limits)];
  return load ? [...broken, ...energies(sent, limits, load)] : broken;
}

function spacing(sent: readonly Pulse[], { onTime, gap }: ProgrammeLimits): string[] {
  const broken: string[] = [];
  sent.forEach((pulse, n) => {
    if (pulse.onTime > onTime * nearly) broken.push(`on-time ${pulse.onTime} at ${pulse.start}`);
    const before = sent[n - 1];
    if (before && pulse.start - (before.start + before.onTime) < gap - instant)
      broken.push(`gap ${pulse.start - before.start - before.onTime} before ${pulse.start}`);
  });
  return broken;
}

function windows(sent: readonly Pulse[], { rate, duty }: ProgrammeLimits): string[] {
  const broken: string[] = [];
  for (const window of [0.1, 1]) {
    const most = Math.ceil(rate * window - 1e-9);
    for (const { start } of sent) {
      const count = sent.filter((other) => other.start >= start && other.start < start + window - instant).length;
      if (count > most) broken.push(`${count} starts in ${window} s from ${start}, at most ${most}`);
    }
  }
  for (const window of [20e-3, 1]) {
    // The on-time in a sliding window is straight between the times at which one of its ends meets an edge of a pulse.
    const edges = sent.flatMap(({ start, onTime }) => [start, start + onTime]);
    for (const from of edges.flatMap((edge) => [edge, edge - window])) {
      let on = 0;
      for (const { start, onTime } of sent)
        on += Math.max(0, Math.min(start + onTime, from + window) - Math.max(start, from));
      if (on > duty * window * nearly + instant) broken.push(`${on} s on in ${window} s from ${from}`);
    }
  }
  return broken;
}

function energies(sent: readonly Pulse[], limits: ProgrammeLimits, { costs, bus }: Load): string[] {
  const broken: string[] = [];
  const full = 0.5 * bus.capacitance * bus.voltage ** 2;
  const drawn: number[] = [];
  const ratios: number[] = [];
  sent.forEach(({ start, onTime }, n) => {
    let taken = 0;
    for (let m = 0; m < n; m++) if (sent[m]!.start > start - bus.refill) taken += drawn[m]!;
    const ratio = Math.sqrt(Math.max(0, 1 - taken / full));
    ratios.push(ratio);
    drawn.push(cost(costs.drawn, onTime, ratio));
    const left = bus.voltage * Math.sqrt(Math.max(0, 1 - (taken + drawn[n]!) / full));
    if (limits.bus !== undefined && left < limits.bus / nearly) broken.push(`bus at ${left} V after ${start}`);
    if (limits.power !== undefined) {
      let inSecond = 0;
      for (let m = 0; m <= n; m++) if (sent[m]!.start > start - 1 + instant) inSecond += drawn[m]!;
      if (inSecond > limits.power * nearly) broken.push(`${inSecond} J in the second up to ${start}`);
    }
  });
  const heats = [
    { name: "junction", limit: limits.junction, table: costs.switchLoss },
    { name: "capacitor", limit: limits.capacitor, table: costs.bankLoss },
  ];
  for (const { name, limit, table } of heats) {
    if (!limit) continue;
    sent.forEach(({ start, onTime }, n) => {
      const time = start + onTime;
      // Superposition of every pulse's own warming, instead of a march.
      let temperature = limit.ambient;
      for (let m = 0; m <= n; m++) {
        const pulse = sent[m]!;
        const power = cost(table, pulse.onTime, ratios[m]!) / pulse.onTime;
        const end = m === n ? time : pulse.start + pulse.onTime;
        for (const [r, tau] of limit.terms)
          temperature += power * r * (Math.exp((end - time) / tau) - Math.exp((pulse.start - time) / tau));
      }
      if (temperature > limit.most * nearly) broken.push(`${name} at ${temperature} K after ${start}`);
    });
  }
  return broken;
}

/** By hand once more: a straight line between the values, a power of the bus. */
function cost({ step, values, exponents }: CostTable, onTime: number, ratio: number): number {
  const n = Math.min(values.length - 2, Math.floor(onTime / step));
  const part = Math.min(1, onTime / step - n);
  const line = (of: Float64Array): number => of[n]! * (1 - part) + of[n + 1]! * part;
  return line(values) * ratio ** line(exponents);
}
