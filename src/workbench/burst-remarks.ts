/** What a burst's numbers alone do not say, in words. */
import type { PoleLock } from "./burst-contract.ts";
import type { BurstContext } from "./burst-figures.ts";

const kilohertz = (frequency: number): string => `${Math.round(frequency / 1e3)} kHz`;
const kilovolts = (voltage: number): string =>
  `${voltage < 10e3 ? (voltage / 1e3).toPrecision(2) : Math.round(voltage / 1e3)} kV`;

export function remarksOf({ coil, setting, train }: BurstContext, lock: PoleLock): string[] {
  const { result } = train;
  const says = new Set(result.remarks);
  const remarks: string[] = [];
  if (result.reached !== "endTime") {
    remarks.push(`the simulation stopped early (${result.reached}); every figure is of the time up to there`);
  }
  if (says.has("neverCommutated")) {
    remarks.push("the bridge never commutates: the sensed current does not reach the comparator's threshold");
  }
  if (!says.has("neverCommutated") && lock.pole === "none" && typeof coil.feedback.sense !== "object") {
    remarks.push(
      `the bridge runs at ${kilohertz(result.meanFrequency ?? 0)}, far from both poles: the feedback has caught a higher mode or the drive's own edges`,
    );
  }
  if (setting.onTime > train.period) {
    remarks.push("the on-time is longer than the period: bursts run into each other and one period is driven whole");
  } else if (says.has("gatesStillDriven")) {
    remarks.push("the gates are still driven at the end of the simulated time");
  }
  if (says.has("tripped")) remarks.push("the overcurrent trip cuts the burst short");
  if (says.has("busReversed"))
    remarks.push("a bus capacitor is drawn below nothing: the bus is too small for this burst");
  if (train.starved) {
    remarks.push(
      "the bus capacitors empty between two half-waves: the mean of the bus is taken as its peak and is lower",
    );
  }
  if (!train.settled) {
    remarks.push(`bursts do not repeat after ${train.bursts}: bus and streamer are those of the last one`);
  }
  if (setting.streamer && setting.breakoutVoltage > 0 && result.breakoutTime === undefined) {
    remarks.push(
      `the top reaches ${kilovolts(result.peakTopVoltage)} and breaks out at ${kilovolts(setting.breakoutVoltage)}: no streamer loads it; a point or a scratch breaks out sooner`,
    );
  }
  return remarks;
}
