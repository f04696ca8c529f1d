/** A loop or a wire of one's own on the bring-up sheet. */
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { pickupOption } from "../../src/cli/pickup-option.ts";
import { run } from "../../src/cli/run.ts";
import { memoryIo } from "./memory-io.ts";

const coil = await readFile(new URL("../../examples/thimble.yaml", import.meta.url), "utf8");

describe("--pickup", () => {
  it("takes a loop by its diameter or its area, and a wire", () => {
    expect(pickupOption(undefined)).toBeUndefined();
    const loop = { kind: "loop", size: 0.1, turns: 2, into: "terminated", distance: 1.5 };
    expect(pickupOption("loop:100mm,turns:2,at:1.5m")).toEqual(loop);
    // law: πd²/4
    expect(pickupOption("at:150cm, turns:2, area:78.54cm²")!.size).toBeCloseTo(0.1, 5);
    expect(pickupOption("wire:0.3m,at:2m,into:probe")).toEqual({
      kind: "wire",
      size: 0.3,
      turns: 0,
      into: "probe",
      distance: 2,
    });
  });

  it.each([
    ["loop:100mm", /how far/],
    ["at:1m", /one of loop, area and wire/],
    ["loop:100mm,wire:1m,at:1m", /one of loop, area and wire/],
    ["loop:100,at:1m", /loop: .*unit/],
    ["loop:-1m,at:1m", /loop/],
    ["loop:100mm,at:1m,turns:1.5", /turns/],
    ["wire:1m,at:1m,turns:2", /no turns/],
    ["loop:100mm,at:1m,into:75", /into/],
    ["loop:100mm,at:1m,colour:red", /`colour` is not known/],
  ])("says of %s what is wrong and what is expected", (text, why) => {
    expect(() => pickupOption(text)).toThrow(why);
    expect(() => pickupOption(text)).toThrow(/^--pickup .*; expected loop:100mm/);
  });

  it("shows what it reads at low bus and at full, in words and as JSON", async () => {
    const io = memoryIo({ "coil.yaml": coil });
    await run(["bringup", "coil.yaml", "--pickup", "loop:100mm,turns:2,at:1.5m"], io);
    expect(io.printed.out).toMatch(
      /Your loop of 2 turns and 100 mm diameter, 1\.5 m off, into 50 Ω: .* at the\s+low bus/,
    );
    const json = memoryIo({ "coil.yaml": coil });
    await run(["bringup", "coil.yaml", "--pickup", "wire:0.3m,at:0.5m,into:probe", "--json"], json);
    const { pickup } = JSON.parse(json.printed.out) as { pickup: { chosen: { kind: string; atFull: number } } };
    expect(pickup.chosen).toMatchObject({ kind: "wire", distance: 0.5, into: "probe" });
    expect(pickup.chosen.atFull).toBeGreaterThan(0);
  });
});
