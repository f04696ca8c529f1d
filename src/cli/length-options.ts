/** Lengths of streamers that somebody saw, from the command line. */
import { absoluteTolerance, type Dimension, type Quantity, readQuantity } from "../units/index.ts";
import type { ObservedLength } from "../workbench/match-streamer.ts";
import { UserError } from "./io.ts";

export interface LengthOptions {
  readonly observedLength?: readonly string[];
  readonly onTime?: readonly string[];
  readonly rate?: readonly string[];
  readonly bus?: readonly string[];
}

/**
 * One for each length; a setting is said once for all, or once for each.
 * @param withBus  whether `--bus` speaks of the lengths: where no record is given
 * @throws UserError  no length, time or frequency, or another count of settings than of lengths
 */
export function observedLengths(
  { observedLength = [], onTime = [], rate = [], bus = [] }: LengthOptions,
  { withBus }: { withBus: boolean },
): readonly ObservedLength[] {
  if (observedLength.length === 0 && (onTime.length > 0 || rate.length > 0)) {
    throw new UserError(
      "--on-time and --rate say how the coil was set for a length; give it as in --observed-length 0.9m",
    );
  }
  const count = observedLength.length;
  const times = settings("--on-time", onTime, { count, dimension: "time" });
  const rates = settings("--rate", rate, { count, dimension: "frequency" });
  const buses = settings("--bus", withBus ? bus : [], { count, dimension: "voltage" });
  return observedLength.map((text, n) => {
    const quantity = positive("--observed-length", text, "length");
    const tolerance = absoluteTolerance(quantity);
    const [onTimeHere, rateHere, busHere] = [times[n], rates[n], buses[n]];
    return {
      length: quantity.value,
      ...(tolerance === undefined ? {} : { tolerance }),
      ...(onTimeHere === undefined ? {} : { onTime: onTimeHere }),
      ...(rateHere === undefined ? {} : { rate: rateHere }),
      ...(busHere === undefined ? {} : { busVoltage: busHere }),
    };
  });
}

function settings(
  option: string,
  texts: readonly string[],
  { count, dimension }: { count: number; dimension: Dimension },
): readonly (number | undefined)[] {
  if (texts.length > 1 && texts.length !== count) {
    throw new UserError(
      `${option} was given ${texts.length} times for ${count} lengths; give it once, or once for each`,
    );
  }
  const values = texts.map((text) => positive(option, text, dimension).value);
  return Array.from({ length: count }, (_, n) => (values.length === 1 ? values[0] : values[n]));
}

function positive(option: string, text: string, dimension: Dimension): Quantity {
  const usual = dimension === "voltage" && /^[\d.]+$/.test(text) ? `${text} V` : text;
  const reading = readQuantity(usual, { dimension });
  if ("problem" in reading)
    throw new UserError(`${option} ${text}: ${reading.problem.what}; expected ${reading.problem.expected}`);
  if (!(reading.quantity.value > 0)) throw new UserError(`${option} ${text}: expected more than zero`);
  return reading.quantity;
}
