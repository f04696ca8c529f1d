/** The waveforms in view as a table for other programs: comma between values, point in numbers, SI, a header line. */
import type { Waveforms } from "../workbench/burst-contract.ts";
import { spentParts } from "./waveform-energy.ts";
import { firstNotBefore, type Span } from "./waveform-reduce.ts";

/** All samples within a span, ends included: time, waveforms, gates, and the ledger up to each time. */
export function waveformCsv(waves: Waveforms, { from, to }: Span): string {
  const { energy } = waves;
  const columns: readonly (readonly [string, ArrayLike<number>])[] = [
    ["time_s", waves.time],
    ["primary_current_A", waves.primaryCurrent],
    ["bridge_voltage_V", waves.bridgeVoltage],
    ["tank_voltage_V", waves.tankVoltage],
    ["top_voltage_V", waves.topVoltage],
    ["bus_voltage_V", waves.busVoltage],
    ["gate_upper", waves.gateUpper],
    ["gate_lower", waves.gateLower],
    ["energy_drawn_J", energy.drawn],
    ["energy_returned_J", energy.returned],
    ...spentParts.map(({ part }) => [`energy_${part}_J`, energy[part]] as const),
  ];
  const lines = [columns.map(([name]) => name).join(",")];
  for (let n = firstNotBefore(waves.time, from); n < waves.time.length && (waves.time[n] ?? 0) <= to; n++) {
    lines.push(columns.map(([, values]) => Number((values[n] ?? 0).toPrecision(9))).join(","));
  }
  return `${lines.join("\n")}\n`;
}
