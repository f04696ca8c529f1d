/** How far the figures of a burst move with what is not known of the streamer: it is by far the least sure part of the circuit. */
import { simulateBurst } from "../burst/index.ts";
import type { Figure } from "../catalogue/figure.ts";
import { channelCapacitance, channelConstants } from "../stress/index.ts";
import type { SteadyTrain } from "./burst-train.ts";

/** Figures that the load of the streamer moves, as results of the simulation. */
const moved = {
  "burst.peakPrimaryCurrent": "peakPrimaryCurrent",
  "burst.peakTankVoltage": "peakTankVoltage",
  "burst.peakTopVoltage": "peakTopVoltage",
  "burst.energyDrawn": "energyDrawn",
  "burst.energyReturned": "energyReturned",
} as const;

/**
 * The same figures with intervals: the least and the greatest value over the last burst run again with the streamer's resistance, and its
 * capacitance, at either end of their range. Bus and length stay as they are.
 *
 * @param figures  of the study
 * @returns those of `burst.*` above with both ends, all others untouched; nothing changes where no streamer is lit
 * @source burst-simulation over the ends of `channelConstants`
 */
export function withStreamerDoubt(figures: readonly Figure[], train: SteadyTrain): readonly Figure[] {
  const { network, initial, onTime, endTime, result, start } = train;
  const streamer = network.streamer;
  if (!streamer || result.breakoutTime === undefined) return figures;
  const { resistanceFactor, radius } = channelConstants;
  const { resistance } = streamer;
  const capacitanceAt = (at: number): number => channelCapacitance({ length: start.load, radius: at });
  const results = [
    { ...streamer, resistance: resistance * resistanceFactor.least },
    { ...streamer, resistance: resistance * resistanceFactor.greatest },
    { ...streamer, capacitance: capacitanceAt(radius.least) },
    { ...streamer, capacitance: capacitanceAt(radius.greatest) },
  ].map((other) =>
    simulateBurst(
      { ...network, streamer: other },
      { onTime, endTime, burstEnd: "synchronous", waveforms: false, ...(initial ? { initial } : {}) },
    ),
  );
  return figures.map((figure) => {
    const key = (moved as Readonly<Record<string, (typeof moved)[keyof typeof moved] | undefined>>)[figure.id];
    const isStreamer = figure.id === "burst.energy.streamer";
    if (key === undefined && !isStreamer) return figure;
    const values = results.map((each) => (key === undefined ? each.ledger.streamer : each[key]));
    return { ...figure, low: Math.min(figure.value, ...values), high: Math.max(figure.value, ...values) };
  });
}
