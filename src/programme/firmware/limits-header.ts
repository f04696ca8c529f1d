/** `limits.h`: the hard limits in the controller's own units, each with the value that it came from. */
import { OutOfDomain } from "../../catalogue/errors.ts";
import type { Hertz, Ratio, Second } from "../../units/si.ts";
import { dutyWindows, rateWindows, startsIn } from "../limits.ts";
import { clockFrequency, ticksCovering, ticksPerSecond, ticksWithin } from "./ticks.ts";

/** What the firmware holds by itself, whatever it is asked for. */
export interface HardLimits {
  readonly onTime: Second;
  /** From the end of a pulse to the start of the next. */
  readonly gap: Second;
  /** On-time in any window of 20 ms, over the window; a pulse across its edge counts with the part inside. */
  readonly duty: Ratio;
  /** Starts in any window of 0.1 s, over the window and rounded up; the window is kept to 32 µs. */
  readonly rate: Hertz;
}

export interface FirmwareSetting {
  readonly limits: HardLimits;
  /** Whether the transmitter is dark while the controller's output is high. */
  readonly idlesHigh: boolean;
  /** How long pulses go on after the last heartbeat. MIDI's active sensing comes at least every 300 ms. */
  readonly heartbeat: Second;
  /** A note that nobody ends is ended after this. */
  readonly longestNote: Second;
}

const [dutyWindow] = dutyWindows;
const [rateWindow] = rateWindows;
/** Ticks in the steps by which starts are remembered. */
const ticksInStep = 64;
/** Timer 1 ends a pulse in hardware within its 16 bits; half of that keeps every comparison of times unambiguous. */
const shortestPulse = 5e-6;
const longestOnTicks = 16_000;
/** What the memory of 2 kB has room for. */
const mostStarts = 240;
const mostSent = 128;

/**
 * @throws OutOfDomain  a limit that the controller cannot hold: not positive, or an on-time over 8 ms
 */
export function limitsHeader({ limits, idlesHigh, heartbeat, longestNote }: FirmwareSetting): string {
  for (const [name, value] of Object.entries({ ...limits, heartbeat, longestNote })) {
    const lowest = name === "gap" ? 0 : Number.MIN_VALUE;
    if (!(value >= lowest && Number.isFinite(value))) {
      throw new OutOfDomain("limitsHeader", `${name} must be a positive number, got ${value}`);
    }
  }
  const onTicks = ticksWithin(limits.onTime);
  if (onTicks > longestOnTicks) {
    throw new OutOfDomain("limitsHeader", `the controller ends pulses up to 8 ms by itself, got ${limits.onTime} s`);
  }
  const starts = startsIn(rateWindow, limits.rate);
  if (starts > mostStarts) {
    throw new OutOfDomain(
      "limitsHeader",
      `the controller counts up to ${mostStarts / rateWindow} pulses a second, got ${limits.rate} Hz`,
    );
  }
  const closest = Math.ceil(dutyWindow / (limits.gap + shortestPulse)) + 2;
  const sentSize = Math.min(mostSent, 2 ** Math.ceil(Math.log2(Math.min(closest, starts + 1))));
  const window = ticksWithin(dutyWindow);
  const lines: readonly (readonly [name: string, value: string, says: string])[] = [
    ["F_CPU", `${clockFrequency}UL`, "Hz, crystal"],
    ["TICKS_PER_SECOND", `${ticksPerSecond}L`, ""],
    ["MAX_ON_TICKS", `${onTicks}`, `on-time: ${microseconds(limits.onTime)} at most`],
    ["MIN_GAP_TICKS", `${ticksCovering(limits.gap)}L`, `from end to start: ${microseconds(limits.gap)} at least`],
    ["DUTY_WINDOW_TICKS", `${window}L`, "20 ms"],
    [
      "DUTY_TICKS",
      `${Math.floor(limits.duty * window + 1e-6)}L`,
      `duty in any such window: ${percent(limits.duty)} at most`,
    ],
    ["SENT_SIZE", `${sentSize}`, "pulses remembered for it, a power of two"],
    ["RATE_WINDOW_STEPS", `${ticksWithin(rateWindow) / ticksInStep}`, "0.1 s in steps of 64 ticks"],
    ["STARTS_IN_WINDOW", `${starts}`, `pulses that begin in any such window: ${limits.rate} a second at most`],
    [
      "OUTPUT_IDLES_HIGH",
      idlesHigh ? "1" : "0",
      idlesHigh ? "low lights the transmitter" : "high lights the transmitter",
    ],
    ["SERIAL_BAUD", "31250UL", "MIDI 1.0"],
    ["HEARTBEAT_TICKS", `${ticksWithin(heartbeat)}UL`, "silence after this long without a heartbeat"],
    ["LONGEST_NOTE_TICKS", `${ticksWithin(longestNote)}UL`, "a note that nobody ends"],
    ["VOICES", "6", ""],
  ];
  return [
    "/* The hard limits. They protect parts, not people: a coil that holds them can still kill. */",
    "#ifndef LIMITS_H",
    "#define LIMITS_H",
    "",
    ...lines.map(([name, value, says]) => `#define ${name} ${value}${says === "" ? "" : ` /* ${says} */`}`),
    "",
    "#endif",
    "",
  ].join("\n");
}

const microseconds = (time: Second): string => `${Number((time * 1e6).toPrecision(6))} us`;
const percent = (ratio: Ratio): string => `${Number((ratio * 100).toPrecision(6))} %`;
