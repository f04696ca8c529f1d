/**
 * The current of a bridge that a generator drives, of coils that differ from their drawing. Independent: the records are a general-purpose
 * circuit simulator's, of two loops whose values are the netlist's own; what they are off by is known from there.
 */
import { describe, expect, it } from "vitest";
import { readCoil } from "../../src/readers/coil-file.ts";
import { match } from "../../src/workbench/match.ts";
import { timeRecord } from "../../src/workbench/match-capture.ts";
import { shapeFigures } from "../../src/workbench/match-point.ts";
import { sensitivities } from "../../src/workbench/sensitivities.ts";
import { solve } from "../../src/workbench/solve.ts";
import { type BenchCoil, polesOfBench, runBench, seenOnBench } from "../matching/bench-netlists.ts";
import { exampleText } from "./match-bench.ts";

const file = readCoil(exampleText("inkwell"));
const solution = solve(file.coil!, { brief: true });
const moved = sensitivities({ file, solution, solve, figures: shapeFigures });
const drawn = (id: string) => solution.figures.get(id)!.value;
const bus = 120;

/** The coil as drawn with its coupling and its tank capacitor off by these factors, driven at a part of the drawn lower pole. */
function coilWith({ coupling, capacitor, drive }: { coupling: number; capacitor: number; drive: number }): BenchCoil {
  const tank = { inductance: drawn("tank.inductance"), capacitance: capacitor * drawn("tank.capacitance") };
  const winding = drawn("secondary.energyInductance");
  const own = 2 * Math.PI * drawn("secondary.f1");
  const frequency = drive * drawn("poles.lower");
  return {
    primary: { ...tank, resistance: Math.sqrt(tank.inductance / tank.capacitance) / 240 },
    secondary: {
      inductance: winding,
      capacitance: 1 / (own * own * winding),
      resistance: (own * winding) / drawn("secondary.qUnloaded"),
    },
    coupling: coupling * drawn("coupling.kMode1") * Math.sqrt(drawn("primary.inductance") / tank.inductance),
    bus,
    drive: frequency,
    onTime: 18 / frequency,
    period: 300 / frequency,
    bursts: 2,
  };
}

describe("the current of a bridge on a generator", () => {
  it.each([
    { coupling: 0.94, capacitor: 1, drive: 1 },
    { coupling: 1.05, capacitor: 1, drive: 0.96 },
    { coupling: 1, capacitor: 0.95, drive: 1.02 },
  ])(
    "tells coupling, tank and secondary of a coil that is off by %j",
    async (off) => {
      const coil = coilWith(off);
      const run = await runBench(coil, 1 / (coil.drive * 22.3));
      const seen = seenOnBench(run, { channels: ["primaryCurrent"], noise: 0.004, fill: 0.85, trigger: 7, seed: 3 });
      const scale = run.primaryCurrent.reduce((most, value) => Math.max(most, Math.abs(value)), 0) / 4;
      const record = {
        ...seen,
        channels: seen.channels.map((channel) => ({
          ...channel,
          unit: "A",
          samples: channel.samples.map((value) => scale * value),
        })),
      };
      const found = match({
        file,
        records: [timeRecord(record, { state: "low", busVoltage: bus })],
        solve,
        solution,
        moved,
      });
      const error = (id: string, truth: number) =>
        Math.abs(found.matched.find((each) => each.id === id)!.value / truth - 1);
      const [lower, upper] = polesOfBench(coil);
      expect(error("match.coupling.kMode1", off.coupling * drawn("coupling.kMode1"))).toBeLessThan(0.02);
      expect(error("match.secondary.f1", drawn("secondary.f1"))).toBeLessThan(2e-3);
      expect(error("match.tank.frequency", drawn("tank.frequency") / Math.sqrt(off.capacitor))).toBeLessThan(3e-3);
      expect(error("match.poles.lower", lower!.frequency)).toBeLessThan(2e-3);
      expect(error("match.poles.upper", upper!.frequency)).toBeLessThan(2e-3);
    },
    60_000,
  );
});
