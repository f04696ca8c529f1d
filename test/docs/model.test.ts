/** What docs/model.md states in numbers is worked out again. A line that fails is a page to correct. */
import { describe, expect, it } from "vitest";
import { simulateBurst } from "../../src/burst/burst.ts";
import { type Figures, figure } from "../../src/catalogue/figure.ts";
import { sources } from "../../src/catalogue/sources.ts";
import { modeOfResonance, networkOfCoil } from "../../src/circuit/index.ts";
import {
  busVoltage,
  channelEnergy,
  driveAmplitude,
  longestBurst,
  reach,
  tankCurrent,
  tankVoltage,
  topVoltage,
} from "../../src/findings/estimates.ts";
import { contextOf } from "../../src/findings/rule.ts";
import { fieldStage } from "../../src/workbench/field-stage.ts";
import { modelUncertainty } from "../../src/workbench/model-uncertainty.ts";
import { solve } from "../../src/workbench/solve.ts";
import { networkOf, openCases, pulseOf } from "../burst/open-cases.ts";
import { relativeError } from "../numerics/within.ts";
import { tableCoilFile } from "./coils.ts";
import { codeIn, numberIn, pageOf, tableOf } from "./page.ts";

const page = pageOf("model.md");
const text = page.replaceAll("\n", " ").replaceAll(/ +/g, " ");
const says = (words: string) => expect(text.includes(words), `docs/model.md says: ${words}`).toBe(true);

const file = tableCoilFile();
const { coil } = file;
const solution = solve(coil);
const context = contextOf({ file, coil, solution, doubts: undefined });

describe("the source keys of the page", () => {
  const named = tableOf(page, "source key").flatMap(([keys]) => keys!.split(",").map((key) => codeIn(key.trim())));
  it.each(named)("%s is a source", (key) => {
    expect(sources.has(key)).toBe(true);
  });
  it("hold every source that says it is explained here", () => {
    const here = [...sources].filter(([, { where }]) => where === "docs/model.md").map(([key]) => key);
    expect(here.filter((key) => !named.includes(key))).toEqual([]);
  });
});

describe("the bounds of the table coil", () => {
  // law: the page prints what the functions give
  it.each<[string, number, number]>([
    ["bus 325 V", busVoltage(coil.supply!), 325],
    ["drive 207 V", driveAmplitude({ bridge: coil.bridge!, supply: coil.supply! }), 207],
    ["longest burst 150 µs", 1e6 * longestBurst(coil.interrupter!), 150],
    ["come out at 180 A", tankCurrent(context)!.high, 180],
    ["3.1 kV on the bank", tankVoltage(context)!.high / 1000, 3.1],
    ["55 to", topVoltage(context)!.low / 1000, 55],
    ["to 166 kV at the top", topVoltage(context)!.high / 1000, 166],
    ["14.9 J into one channel", channelEnergy(context)!, 14.9],
  ])("%s", (words, found, printed) => {
    says(words);
    expect(relativeError(found, printed)).toBeLessThan(0.01);
  });
});

describe("reach of the table coil", () => {
  it("is what the page says", () => {
    const found = reach(context)!;
    const printed = [found.low, found.middle, found.high].map((metres) => metres.toFixed(2)).join(", ");
    says(`${printed} m`);
  });
});

describe("the streamer that the tune is aimed at", () => {
  it("is predicted for the table coil as the page says", () => {
    says("0.43 m, 0.18 to 0.81 m");
    const { aim: _aim, ...without } = coil;
    const { value, low, high } = solve(without).figures.get("tuning.streamerLength")!;
    expect([value, low!, high!].map((metres) => metres.toFixed(2))).toEqual(["0.43", "0.18", "0.81"]);
  });
  it("asks the table coil to be tuned as low as the page says", () => {
    says("tuned 8.1 % low");
    expect((100 * (1 - solution.figures.get("tuning.aimRatio")!.value)).toFixed(1)).toBe("8.1");
  });
});

describe("what the model itself may be off by", () => {
  const rows = tableOf(page, "figure", "half-width");
  const clear = modelUncertainty(coil, solution.figures);
  const f1 = solution.figures.get("secondary.f1")!.value;
  const wall = figure("detuning.wall", -0.03 * f1, { from: ["site.wall"], source: "boundary-elements" });
  const nearRoom: Figures = new Map([...solution.figures, ["detuning.wall", wall]]);
  const near = modelUncertainty(coil, nearRoom);
  it.each(rows)("%s: %s, near the room %s", (id, half, halfNear) => {
    expect(100 * clear.get(codeIn(id!))!).toBeCloseTo(numberIn(half!), 1);
    expect(100 * near.get(codeIn(id!))!).toBeCloseTo(numberIn(halfNear!), 1);
  });
  it("leaves out only what the text below it explains", () => {
    const explained = ["secondary.resistanceAc", "secondary.qUnloaded", "tuning.aimRatio", "tuning.loadedF1"];
    const listed = [...rows.map(([id]) => codeIn(id!)), ...explained, "tuning.tapForMatch", "tuning.capacitorForMatch"];
    expect([...clear.keys()].filter((id) => !listed.includes(id))).toEqual([]);
  });
});

describe("the bounds against the burst", () => {
  const rows = tableOf(page, "quantity", "bound");
  const ends = (name: string) =>
    rows
      .find(([quantity]) => quantity === name)![2]!
      .match(/[\d.]+/g)!
      .map(Number);
  const value = (id: string) => solution.figures.get(id)!.value;
  const stage = fieldStage(coil);
  const mode = stage.modes[0]!;
  const at = stage.primaryAt!(coil.primary!.tap);
  const perAmpere = Math.sqrt(value("tank.inductance") / mode.energyCapacitance);
  const onTime = longestBurst(coil.interrupter!);
  const bursts = (overcurrent: boolean) =>
    [0.9, 0.95, 1, 1.05, 1.1].map((ratio) => {
      const capacitance = 1 / ((2 * Math.PI * mode.frequency * ratio) ** 2 * value("tank.inductance"));
      const { overcurrent: limit, ...feedback } = coil.feedback!;
      const network = networkOfCoil({
        bridge: coil.bridge!,
        supply: coil.supply!,
        tank: { ...coil.tank!, bank: { ...coil.tank!.bank, each: capacitance, series: 1, parallel: 1 } },
        feedback: overcurrent && limit !== undefined ? { ...feedback, overcurrent: limit } : feedback,
        resonator: {
          primaryInductance: at.inductance,
          primaryResistance: value("primary.resistanceAc"),
          operatingFrequency: value("poles.lower"),
          modes: [
            modeOfResonance({
              frequency: mode.frequency,
              energyInductance: mode.energyInductance,
              energyCapacitance: mode.energyCapacitance,
              mutual: at.mutuals[1]!,
              q: value("secondary.qUnloaded"),
            }),
          ],
        },
      });
      return simulateBurst(network, { onTime, burstEnd: "synchronous", endTime: 2 * onTime, waveforms: false });
    });
  const [tripped, free] = [bursts(true), bursts(false)];
  const drive = driveAmplitude({ bridge: coil.bridge!, supply: coil.supply! });
  const shares = [...tripped, ...free].map(
    (burst) => burst.energyNet / (((drive * burst.peakPrimaryCurrent) / 2) * burst.gatesOffTime!),
  );
  // independent: the burst knows nothing of the bounds
  it.each<[string, readonly number[]]>([
    ["tank current, overcurrent on", tripped.map(({ peakPrimaryCurrent }) => peakPrimaryCurrent)],
    ["top voltage, overcurrent on", tripped.map(({ peakTopVoltage }) => peakTopVoltage / 1000)],
    ["tank current, overcurrent off", free.map(({ peakPrimaryCurrent }) => peakPrimaryCurrent)],
    [
      "top voltage over current × √(L/C_e), overcurrent off",
      free.map(({ peakTopVoltage, peakPrimaryCurrent }) => peakTopVoltage / (peakPrimaryCurrent * perAmpere)),
    ],
    ["energy drawn over drive × peak current / 2 × time", shares],
  ])("%s", (name, values) => {
    const [least, greatest] = ends(name);
    expect(relativeError(Math.min(...values), least!)).toBeLessThan(0.05);
    expect(relativeError(Math.max(...values), greatest!)).toBeLessThan(0.05);
  });
});

describe("the bursts of the circuit simulator", () => {
  // independent: test/reference/burst-open-cases.json
  it.each(tableOf(page, "figure", "apart by at most"))("%s is apart by at most %s", (name, atMost) => {
    const key = codeIn(name!) as "peakPrimaryCurrent";
    for (const openCase of openCases) {
      const burst = simulateBurst(networkOf(openCase), pulseOf(openCase));
      expect(relativeError(burst[key], openCase.results[key])).toBeLessThan(numberIn(atMost!));
    }
  });
});
