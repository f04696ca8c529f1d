import { describe, expect, it } from "vitest";
import { run } from "../../src/cli/run.ts";
import { exampleText } from "../workbench/match-bench.ts";
import { memoryIo } from "./memory-io.ts";

describe("coilwright match --observed-length", () => {
  const coil = exampleText("belfry");

  it("fits the streamer's constants without a record, and writes them where asked to", async () => {
    const io = memoryIo({ "coil.yaml": coil });
    const lengths = [
      "--observed-length",
      "1.3 m ± 0.1 m",
      "--observed-length",
      "2m",
      "--rate",
      "120Hz",
      "--rate",
      "240Hz",
    ];
    expect(await run(["match", "coil.yaml", ...lengths, "--onTime", "55us", "--json"], io)).toBeLessThan(2);
    const { streamer } = JSON.parse(io.printed.out) as {
      streamer: {
        constants: { id: string; low: number; high: number; value: number }[];
        lengths: { fitted: number }[];
      };
    };
    expect(streamer.constants.map(({ id }) => id)).toEqual(["energyPerMetre", "voltagePerMetre", "memory"]);
    // law: a fit lies nearer to what was seen than a quarter of its length
    expect(Math.abs(streamer.lengths[0]!.fitted / 1.3 - 1)).toBeLessThan(0.25);
    const again = memoryIo({ "coil.yaml": coil });
    await run(["match", "coil.yaml", ...lengths, "--adopt"], again);
    expect(again.files.get("coil.yaml")).toMatch(/streamer:.*energyPerMetre: .*\(measured\)/s);
    for (const line of again.printed.out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  }, 60_000);

  it("says what is missing or cannot be", async () => {
    for (const [args, says] of [
      [["match", "coil.yaml"], "--observed-length 0.9m"],
      [["match", "coil.yaml", "--rate", "100Hz"], "--observed-length 0.9m"],
      [["match", "coil.yaml", "--observed-length", "0.9 s"], "--observed-length 0.9 s"],
      [
        ["match", "coil.yaml", "--observed-length", "1m", "--rate", "1Hz", "--rate", "2Hz"],
        "given 2 times for 1 lengths",
      ],
    ] as const) {
      const io = memoryIo({ "coil.yaml": coil });
      expect(await run([...args], io)).toBe(2);
      expect(io.printed.err).toContain(says);
    }
  });
});
