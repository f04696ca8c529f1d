/** What a burst asks of each capacitor of the bank. */
import { type Figure, figure } from "../catalogue/figure.ts";
import type { BurstContext } from "./burst-figures.ts";

export function bankFigures({ coil, circuit, train }: BurstContext): Figure[] {
  const { each, series, parallel, dissipation } = coil.tank.bank;
  const { result, period } = train;
  const peakCurrent = result.peakPrimaryCurrent / parallel;
  const source = "capacitor-stress";
  const heat = (circuit.dielectricShare * result.ledger.primary) / period / (series * parallel);
  return [
    figure("bank.voltageEach", result.peakTankVoltage / series, {
      from: ["burst.peakTankVoltage", "tank.bank.series"],
      source,
      note: series > 1 ? "shared equally; capacitors of unlike value share it unequally" : "alone in its string",
    }),
    figure("bank.currentEach", Math.sqrt(result.primaryCurrentSquare / period) / parallel, {
      from: ["burst.rmsPrimaryCurrent", "tank.bank.parallel"],
      source,
    }),
    figure("bank.peakCurrentEach", peakCurrent, { from: ["burst.peakPrimaryCurrent", "tank.bank.parallel"], source }),
    figure("bank.slope", peakCurrent / each, { from: ["bank.peakCurrentEach", "tank.bank.each"], source }),
    figure("bank.voltageLeft", Math.abs(result.tankVoltageAtEnd), {
      from: ["burst.energy.stored"],
      source: "burst-simulation",
      note: "what bleeds it is not in the file: the bank can stay charged; short it before touching",
    }),
    ...(dissipation === undefined
      ? []
      : [
          figure("bank.heatEach", heat, {
            from: ["burst.energy.tank", "interrupter.rate", "tank.bank.series", "tank.bank.parallel"],
            source,
            note: "tan δ as in the file; it rises with frequency, and a data sheet often gives it at 1 kHz",
          }),
        ]),
  ];
}
