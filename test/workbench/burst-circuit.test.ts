import { describe, expect, it } from "vitest";
import { busOfSupply } from "../../src/circuit/index.ts";
import { coupledPoles } from "../../src/fields/handbook/coupled-poles.ts";
import { burstCircuit, thresholdOf } from "../../src/workbench/burst-circuit.ts";
import { fullSetting, periodOf } from "../../src/workbench/burst-setting.ts";
import { lantern, lanternSolved } from "./burst-coils.ts";

const value = (id: string): number => lanternSolved.figures.get(id)!.value;
const circuitOf = (modes: 1 | 2 | 3) =>
  burstCircuit(lantern, lanternSolved, fullSetting(lantern, lanternSolved, { modes }));

describe("the circuit of a study", () => {
  it("has the poles that the solution has", () => {
    // independent: two coupled loops in closed form against the solution's poles, which count twelve modes; they move a pole by under 0.5 %
    const { primary, modes } = circuitOf(1).network;
    const mode = modes[0]!;
    const frequency = (inductance: number, capacitance: number) =>
      1 / (2 * Math.PI * Math.sqrt(inductance * capacitance));
    const poles = coupledPoles({
      first: frequency(primary.inductance, primary.tankCapacitance),
      second: frequency(mode.inductance, mode.capacitance),
      coupling: mode.mutual / Math.sqrt(primary.inductance * mode.inductance),
    });
    expect(Math.abs(poles.lower / value("poles.lower") - 1)).toBeLessThan(5e-3);
    expect(Math.abs(poles.upper / value("poles.upper") - 1)).toBeLessThan(5e-3);
  });

  it("has modes 2 and 3 at their frequencies, the base current of every second one the other way round", () => {
    // law: a loop rings at its mode's frequency; one more node turns the base current over against the top
    const { modes } = circuitOf(3).network;
    [value("secondary.f1"), value("secondary.f2"), value("secondary.f3")].forEach((f, m) => {
      const { inductance, capacitance, baseCurrentRatio } = modes[m]!;
      expect(1 / (2 * Math.PI * Math.sqrt(inductance * capacitance))).toBeCloseTo(f, 3);
      expect(Math.sign(baseCurrentRatio!)).toBe(m === 1 ? -1 : 1);
    });
  });

  it("gives every mode a Q of its own, of the order of the first's", () => {
    // law: resistance of thin wire rises slower than frequency; proximity makes it rise faster
    const q = circuitOf(3).network.modes.map(
      ({ inductance, capacitance, resistance }) => Math.sqrt(inductance / capacitance) / resistance,
    );
    expect(q[0]! / value("secondary.qUnloaded")).toBeCloseTo(1, 6);
    for (const other of q) {
      expect(other).toBeGreaterThan(q[0]! / 3);
      expect(other).toBeLessThan(q[0]! * 3);
    }
  });

  it("keeps the bank's loss apart from the coil's", () => {
    // law: tan δ/(ωC) in series
    const { dielectricShare, network, operatingFrequency } = circuitOf(1);
    const loss = 0.0006 / (2 * Math.PI * operatingFrequency * 50e-9);
    expect(dielectricShare * network.primary.resistance).toBeCloseTo(loss, 12);
  });
});

describe("the bus", () => {
  it("is one bank in two halves behind a bridge, and two banks behind a doubler", () => {
    // law: halves of 2C in series are C; the file describes each half of a doubler
    const { supply } = lantern;
    expect(busOfSupply(supply)).toMatchObject({ capacitorEach: 3e-3, resistanceEach: 0.03 });
    expect(busOfSupply({ ...supply, rectifier: "doubler" })).toMatchObject({
      capacitorEach: 1.5e-3,
      resistanceEach: 0.06,
    });
    const bank = { ...supply.capacitors, series: 2, parallel: 3 };
    expect(busOfSupply({ ...supply, rectifier: "doubler", capacitors: bank }).capacitorEach).toBeCloseTo(2.25e-3, 12);
  });
});

describe("the comparator", () => {
  it("is as deaf as its burden makes it", () => {
    // law: 5 mV over the burden, times the ratio
    expect(thresholdOf(lantern.feedback)).toBeCloseTo(5e-3 / (5.1 / 1000), 12);
    expect(thresholdOf({ sense: "primaryCurrent", delay: 0, lead: 0 })).toBe(1);
    expect(thresholdOf({ sense: "secondaryCurrent", delay: 0, lead: 0 })).toBeLessThan(0.1);
  });
});

describe("the setting", () => {
  it("is the file's where nothing is set, and never less than nothing", () => {
    const own = fullSetting(lantern, lanternSolved, {});
    expect(own).toMatchObject({ onTime: 110e-6, rate: 180, streamer: true, modes: 1, senseReversed: false });
    expect(own.busVoltage).toBeCloseTo(325.27, 2);
    expect(own.breakoutVoltage).toBe(value("topload.breakoutVoltage"));
    expect(fullSetting(lantern, lanternSolved, { onTime: -1, rate: Number.NaN })).toMatchObject({ onTime: 0, rate: 0 });
    expect(periodOf({ rate: 0 })).toBe(1);
    expect(periodOf({ rate: 200 })).toBe(5e-3);
  });
});
