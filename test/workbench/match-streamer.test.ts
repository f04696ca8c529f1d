import { describe, expect, it } from "vitest";
import { editCoil, readCoil } from "../../src/readers/coil-file.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import { matchStreamer } from "../../src/workbench/match-streamer.ts";
import { solve } from "../../src/workbench/solve.ts";
import { chance } from "../matching/two-resonators.ts";
import { exampleText } from "./match-bench.ts";

const file = readCoil(exampleText("belfry"));
const coil = file.coil!;
const solution = solve(coil, { brief: true });
const on = coil.interrupter!.onTime;
const lengthOf = (streamer: NonNullable<typeof coil.streamer>, setting: object) =>
  study({ ...coil, streamer }, solution, setting).figures.get("burst.streamerLength")!.value;
const settings = [{ rate: 100 }, { rate: 200 }, { rate: 350 }, { onTime: 0.75 * on, rate: 250 }];

describe("matchStreamer", () => {
  it("finds the constants that made the lengths, within its intervals, through the scatter of strikes", () => {
    const truth = { energyPerMetre: 11, voltagePerMetre: 85e3, memory: 20e-3 };
    const random = chance(3);
    // law: lengths of the same model with known constants, each strewn by the scatter that the fit allows
    const observed = settings.map((setting) => ({
      ...setting,
      length: lengthOf(truth, setting) * Math.exp(0.1 * random.normal()),
    }));
    const { constants, lengths, adopt } = matchStreamer({ file, solution, observed });
    for (const { id, low, high, drawn, value, left } of constants) {
      expect(low, id).toBeLessThan(truth[id]);
      expect(high, id).toBeGreaterThan(truth[id]);
      if (left < 0.5) expect(Math.abs(Math.log(value / truth[id]))).toBeLessThan(Math.abs(Math.log(drawn / truth[id])));
    }
    for (const { sigmas } of lengths) expect(Math.abs(sigmas)).toBeLessThan(2.5);
    const edited = editCoil(file.text, adopt);
    if ("findings" in edited) throw new Error(edited.findings[0]?.what);
    const again = readCoil(edited.text);
    expect(again.provenances.get("streamer.energyPerMetre")?.origin).toBe("measured");
    // law: what was adopted is used by the burst afterwards
    const off = (made: typeof coil) =>
      settings.reduce(
        (sum, setting, n) =>
          sum +
          Math.abs(
            Math.log(study(made, solution, setting).figures.get("burst.streamerLength")!.value / observed[n]!.length),
          ),
        0,
      );
    expect(off(again.coil!)).toBeLessThan(0.6 * off(coil));
  }, 60_000);

  it("says nothing of a constant that no length depends on, and leaves out what the model does not light", () => {
    const { constants, findings, adopt } = matchStreamer({
      file,
      solution,
      observed: [{ length: 0.3, busVoltage: 60 }],
    });
    expect(findings.map(({ rule }) => rule)).toEqual(["match-length-without-streamer"]);
    for (const { left } of constants) expect(left).toBeGreaterThan(0.99);
    expect(adopt).toEqual([]);
  }, 30_000);
});
