/** Settings of a burst from the command line, in the words of the coil file. */
import { type Dimension, readQuantity } from "../units/index.ts";
import type { BurstSetting } from "../workbench/burst-contract.ts";
import { UserError } from "./io.ts";

export interface BurstOptions {
  readonly onTime?: string;
  readonly rate?: string;
  readonly bus?: string;
  readonly breakout?: string;
  readonly modes?: string;
  /** False where it was asked to be left out. */
  readonly streamer: boolean;
  readonly reversed?: boolean;
}

/** @throws UserError an option is no quantity of its kind, or is out of its range; the message says what was expected */
export function burstSetting({ onTime, rate, bus, breakout, modes, streamer, reversed }: BurstOptions): BurstSetting {
  return {
    ...quantity("onTime", "--on-time", onTime, { dimension: "time", from: 1e-7, to: 0.1, range: "0.1 µs to 100 ms" }),
    ...quantity("rate", "--rate", rate, { dimension: "frequency", from: 0, to: 50e3, range: "0 Hz to 50 kHz" }),
    ...quantity("busVoltage", "--bus", bus, { dimension: "voltage", from: 0, to: 20e3, range: "0 V to 20 kV" }),
    ...quantity("breakoutVoltage", "--breakout", breakout, {
      dimension: "voltage",
      from: 1,
      to: 10e6,
      range: "1 V to 10 MV",
    }),
    ...(modes === undefined ? {} : { modes: modesOf(modes) }),
    ...(streamer ? {} : { streamer }),
    ...(reversed ? { senseReversed: true } : {}),
  };
}

function quantity<K extends keyof BurstSetting>(
  key: K,
  option: string,
  text: string | undefined,
  { dimension, from, to, range }: { dimension: Dimension; from: number; to: number; range: string },
): Partial<Record<K, number>> {
  if (text === undefined) return {};
  const reading = readQuantity(text, { dimension });
  if ("problem" in reading) {
    const { what, expected, suggestions } = reading.problem;
    const hint = suggestions.length > 0 ? `; did you mean ${suggestions.join(" or ")}?` : "";
    throw new UserError(`${option} ${text}: ${what}; expected ${expected}${hint}`);
  }
  const { value } = reading.quantity;
  if (!(value >= from && value <= to)) throw new UserError(`${option} ${text} is out of range; expected ${range}`);
  return { [key]: value } as Partial<Record<K, number>>;
}

function modesOf(text: string): 1 | 2 | 3 {
  const found = ([1, 2, 3] as const).find((count) => String(count) === text.trim());
  if (found === undefined) throw new UserError(`--modes ${text}: expected 1, 2 or 3 modes of the secondary`);
  return found;
}
