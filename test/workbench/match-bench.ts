/**
 * Records as a bench would give them, of coils with something wrong: the coil is solved and its bursts are simulated exactly with three modes
 * of the secondary, then seen through an instrument of 8 bits with noise. What the match uses (two loops, one mode) is coarser than this.
 */
import { readFileSync } from "node:fs";
import { simulateBurst } from "../../src/burst/index.ts";
import type { BurstNetwork } from "../../src/circuit/network.ts";
import type { Coil } from "../../src/description/coil.ts";
import type { BenchRecord } from "../../src/description/record.ts";
import { readRecord } from "../../src/matching/record.ts";
import { burstCircuit, type DrivenCoil } from "../../src/workbench/burst-circuit.ts";
import { fullSetting } from "../../src/workbench/burst-setting.ts";
import type { MatchRecord } from "../../src/workbench/match.ts";
import { solve } from "../../src/workbench/solve.ts";
import { chance, seen } from "../matching/two-resonators.ts";

export interface Bench {
  readonly bus: number;
  /** What the person believes the bus to be; the same where absent. */
  readonly said?: number;
  readonly onTime?: number;
  readonly seed?: number;
  readonly reversed?: boolean;
  /** Modes of the secondary that are simulated; three where absent. */
  readonly modes?: 1 | 3;
  readonly change?: (network: BurstNetwork) => BurstNetwork;
}

const [interval, before, length] = [40e-9, 150e-6, 1.5e-3];

/** A record with primary current, pickup loop and interrupter gate. */
export function benchRecord(
  coil: Coil,
  { bus, said = bus, onTime = 70e-6, seed = 1, reversed = false, modes = 3, change = (n) => n }: Bench,
): MatchRecord {
  const solution = solve(coil, { brief: true });
  const setting = fullSetting(coil, solution, { busVoltage: bus, modes, senseReversed: reversed });
  const { overcurrent: _trip, ...network } = burstCircuit(coil as DrivenCoil, solution, setting).network;
  const end = length - before;
  const run = simulateBurst(change(network), { onTime, endTime: end, burstEnd: "synchronous" });
  const count = Math.floor(length / interval);
  const times = Float64Array.from({ length: count }, (_, n) => n * interval - before);
  const inside = times.filter((time) => time > 0 && time < (run.waveforms?.end ?? 0));
  const samples = run.waveforms!.sample(inside);
  const placed = (values: Float64Array) => {
    const all = new Float64Array(count);
    const first = times.findIndex((time) => time > 0);
    all.set(values, first);
    return all;
  };
  const random = chance(seed);
  const shown = (values: Float64Array): Float32Array => {
    const peak = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0) || 1;
    const unit = values.map((value) => value / peak);
    return Float32Array.from(
      seen(unit, { noise: 0.004, bits: 8, range: 1.2, offset: 0.003 }, random),
      (value) => value * peak,
    );
  };
  const record: BenchRecord = {
    name: "bench.csv",
    start: -before,
    interval,
    length: count,
    channels: [
      { name: "CT", role: "primaryCurrent", unit: "A", samples: shown(placed(samples.primaryCurrent)) },
      { name: "loop", role: "pickupLoop", unit: "V", samples: shown(placed(samples.topVoltage)) },
      {
        name: "int",
        role: "gate",
        unit: "V",
        samples: Float32Array.from(times, (time) => (time >= 0 && time < onTime ? 5 : 0)),
      },
    ],
  };
  return { record, reading: readRecord(record), state: "low", busVoltage: said };
}

/** Text of a coil file that comes with the program. */
export const exampleText = (name: string): string =>
  readFileSync(new URL(`../../examples/${name}.yaml`, import.meta.url), "utf8");
