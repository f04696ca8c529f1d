/** A general-purpose circuit simulator, run live on a netlist. */
import { Simulation } from "eecircuit-engine";

export interface SimulatorRun {
  readonly time: Float64Array;
  readonly primaryCurrent: Float64Array;
  readonly tankVoltage: Float64Array;
  readonly topVoltage: Float64Array;
}

/** Runs a netlist's transient analysis as it stands; a row of the result by any of the names that the simulator may give it. */
export async function runRows(netlist: string): Promise<(...names: readonly string[]) => Float64Array> {
  const simulation = new Simulation();
  await simulation.start();
  simulation.setNetList(netlist);
  const result = await simulation.runSim();
  if (result.dataType !== "real") throw new Error("a transient analysis gives real numbers");
  const { data } = result;
  return (...names) => {
    const found = data.find(({ name }) => names.includes(name.toLowerCase()));
    if (!found) throw new Error(`no ${names[0]} among ${data.map(({ name }) => name).join(", ")}`);
    return Float64Array.from(found.values);
  };
}

/**
 * Runs a transient analysis with another largest step in place of the netlist's own.
 * @param step  [s]
 */
export async function runNetlist({ netlist, step }: { netlist: string; step: number }): Promise<SimulatorRun> {
  const line = /^\.tran \S+ (\S+) 0 \S+ uic$/m;
  if (!line.test(netlist)) throw new Error("the netlist has no transient analysis of the expected form");
  const row = await runRows(netlist.replace(line, `.tran ${step} $1 0 ${step} uic`));
  const after = row("v(b)", "b");
  return {
    time: row("time"),
    primaryCurrent: row("i(vsense)", "vsense#branch"),
    tankVoltage: row("v(a)", "a").map((voltage, n) => voltage - after[n]!),
    topVoltage: row("v(top)", "top"),
  };
}

/** Greatest absolute value, refined by the parabola through the greatest sample and its neighbours. */
export function peakOf(time: Float64Array, values: Float64Array): number {
  let at = 0;
  for (let n = 1; n < values.length; n++) if (Math.abs(values[n]!) > Math.abs(values[at]!)) at = n;
  const greatest = Math.abs(values[at]!);
  if (at === 0 || at === values.length - 1) return greatest;
  const left = time[at - 1]! - time[at]!;
  const right = time[at + 1]! - time[at]!;
  const below = Math.abs(values[at - 1]!) - greatest;
  const above = Math.abs(values[at + 1]!) - greatest;
  const curve = (above / right - below / left) / (right - left);
  const slope = below / left - curve * left;
  return curve < 0 ? greatest - (slope * slope) / (4 * curve) : greatest;
}
