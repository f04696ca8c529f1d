import { describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/index.ts";
import { run } from "../../src/cli/run.ts";
import { editedText } from "../findings/changed.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { memoryIo } from "./memory-io.ts";

async function told(argv: readonly string[], text = quietDriver, others: Readonly<Record<string, string>> = {}) {
  const io = memoryIo({ "coil.yaml": text, ...others });
  const code = await run(argv, io);
  return { code, io, out: io.printed.out, err: io.printed.err };
}
const flat = (text: string) => text.replaceAll("\n", " ");
const numberIn = (text: string) => Number(text.replace("−", "-"));

describe("coilwright burst", () => {
  it("answers its question first, then shows account, ledger and findings, in 80 columns", async () => {
    const { code, out, err } = await told(["burst", "coil.yaml"]);
    expect([code, err]).toEqual([0, ""]);
    expect(out).toMatch(/^Quiet driver {2}coil\.yaml\nBursts of 50 µs, 100 a second, from a bus of 32\d\.\d V\./);
    expect(out).toContain("on the lower pole");
    expect(out).toMatch(/The top breaks out after 13 µs, at 4\d\.\d kV; in free air the streamer reaches/);
    expect(out).toMatch(/The interrupter's limits let through bursts of 55 µs, 130 a second:/);
    expect(out).toMatch(/If the top did not break out it would come to \d+\.\d A/);
    for (const id of ["burst.peakTopVoltage", "burst.streamerLength", "bank.slope", "winding.turnVoltage"]) {
      expect(out).toContain(` ${id}\n`);
    }
    expect(out).not.toContain(" switch.junctionPeak\n");
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  // law: what is drawn less what comes back is what is kept, and what is kept is what was spent, in print as well
  it("prints an account that adds up to its last digit", async () => {
    const { out } = await told(["burst", "coil.yaml"]);
    const block = out.slice(out.indexOf("energy of one burst")).split("\n\n")[0]!.split("\n").slice(1);
    const amounts = block.map((line) => numberIn(/ (−?\d+(?:\.\d+)?) /.exec(line)?.[1] ?? "NaN"));
    const [drawn = 0, returned = 0, kept = 0, ...spent] = amounts;
    expect(spent).toHaveLength(8);
    expect(drawn + returned).toBeCloseTo(kept, 9);
    expect(spent.reduce((sum, one) => sum + one, 0)).toBeCloseTo(kept, 9);
  });

  it("moves what it is asked to move, and leaves the file alone", async () => {
    const { out, io } = await told(["burst", "coil.yaml", "--on-time", "40us", "--rate", "60 Hz", "--bus", "100V"]);
    expect(out).toContain("Bursts of 40 µs, 60 a second, from a bus of 99");
    expect(io.files.get("coil.yaml")).toBe(quietDriver);
    const dark = await told(["burst", "coil.yaml", "--no-streamer"]);
    expect(dark.out).toContain("No streamer was reckoned with");
    expect(dark.out).not.toContain("If the top did not break out");
    const reversed = await told(["burst", "coil.yaml", "--reversed"]);
    expect(reversed.out).toContain("feedback.sense: the bridge switches at 1.4");
    const pointed = await told(["burst", "coil.yaml", "--breakout", "30 kV", "--modes", "3"]);
    expect(pointed.out).toMatch(/breaks out after \d+(\.\d)? µs, at 30\.0 kV/);
  });

  it("prints figures, findings and the course of the burst as JSON, in SI", async () => {
    const { code, out } = await told(["burst", "coil.yaml", "--json"]);
    const answer = JSON.parse(out);
    expect(code).toBe(0);
    expect(Object.keys(answer)).toEqual([
      "quantities",
      "findings",
      "setting",
      "missing",
      "remarks",
      "reached",
      "junction",
      "envelope",
      "commutations",
      "lock",
      "train",
    ]);
    for (const [id, { unit }] of Object.entries<{ unit: string }>(answer.quantities)) {
      expect([id, quantities.get(id)?.unit]).toEqual([id, unit]);
    }
    expect(answer.quantities["burst.streamerLength"].low).toBeLessThan(answer.quantities["burst.streamerLength"].high);
    expect(answer.setting).toMatchObject({ onTime: 50e-6, rate: 100, streamer: true, modes: 1 });
    const { energyDrawn, energyReturned } = Object.fromEntries(
      Object.entries<{ value: number }>(answer.quantities).map(([id, { value }]) => [id.replace("burst.", ""), value]),
    );
    const parts = Object.entries<{ value: number }>(answer.quantities).filter(([id]) => id.startsWith("burst.energy."));
    const spent = parts.reduce((sum, [, { value }]) => sum + value, 0);
    // law: the ledger closes on what was drawn within 0.1 %
    expect(Math.abs(energyDrawn! - energyReturned! - spent)).toBeLessThan(1e-3 * energyDrawn!);
  });

  it("says what is missing where there is no burst to compute", async () => {
    const { out } = await told(["burst", "coil.yaml"], editedText(quietDriver, { bridge: undefined }));
    expect(out).toContain("bridge: without a bridge there is no burst");
    expect(out).toContain("the file has no bridge, so no burst is computed");
  });

  it.each([
    [["--on-time", "fast"], "--on-time fast:"],
    [["--on-time", "80"], "80 µs"],
    [["--rate", "2 kHz ± "], "--rate 2 kHz ±"],
    [["--bus", "-5 V"], "--bus -5 V is out of range; expected 0 V to 20 kV"],
    [["--modes", "4"], "--modes 4: expected 1, 2 or 3 modes of the secondary"],
    [["--csv", "-", "--svg", "-"], "only one of --csv -, --svg - and --json can go to standard output"],
    [["--svg", "-", "--json"], "only one of --csv -, --svg - and --json can go to standard output"],
  ])("refuses %j and says what was expected", async (options, message) => {
    const { code, out, err } = await told(["burst", "coil.yaml", ...options]);
    expect(code).toBe(2);
    expect(err).toContain(message);
    if (!options.includes("--json")) expect(out).toBe("");
  });

  it("shows intervals where they are asked for", async () => {
    const { out } = await told(["burst", "coil.yaml", "--sure", "--json"]);
    for (const [id, { low, value, high }] of Object.entries<Record<string, number>>(JSON.parse(out).quantities)) {
      expect([id, low! <= value!, value! <= high!]).toEqual([id, true, true]);
    }
  }, 60_000);
});

describe("waveforms of coilwright burst", () => {
  it("go to standard output as a table and nothing else", async () => {
    const { code, out } = await told(["burst", "coil.yaml", "--csv", "-"]);
    expect(code).toBe(0);
    const [header = "", ...rows] = out.trimEnd().split("\n");
    expect(header).toMatch(/^time_s,primary_current_A,bridge_voltage_V,/);
    expect(rows.length).toBeGreaterThan(200);
    const times = rows.map((row) => Number(row.split(",")[0]));
    expect(times).toEqual([...times].sort((a, b) => a - b));
    for (const row of rows) for (const cell of row.split(",")) expect(Number.isFinite(Number(cell))).toBe(true);
  });

  // law: 28 samples a cycle miss a crest by at most 1 − cos(π/28) of it
  it("hold the peak that the page names", async () => {
    const [{ out: table }, { out: page }] = await Promise.all([
      told(["burst", "coil.yaml", "--csv", "-"]),
      told(["burst", "coil.yaml", "--json"]),
    ]);
    const column = table.split("\n")[0]!.split(",").indexOf("primary_current_A");
    const peak = Math.max(
      ...table
        .trimEnd()
        .split("\n")
        .slice(1)
        .map((row) => Math.abs(Number(row.split(",")[column]))),
    );
    const exact = JSON.parse(page).quantities["burst.peakPrimaryCurrent"].value;
    expect(peak / exact).toBeGreaterThan(1 - (1 - Math.cos(Math.PI / 28)) - 1e-6);
    expect(peak / exact).toBeLessThanOrEqual(1 + 1e-6);
  });

  it("go to a file as a picture, which is replaced by the next one and by nothing else", async () => {
    const first = await told(["burst", "coil.yaml", "--svg", "burst.svg"]);
    expect(first.err).toBe("burst.svg written\n");
    expect(first.out).toContain("energy of one burst");
    const picture = first.io.files.get("burst.svg")!;
    expect(picture).toMatch(/^<svg [^>]*>\n<title>One burst of Quiet driver<\/title>/);
    const again = await told(["burst", "coil.yaml", "--svg", "burst.svg", "--on-time", "40us"], quietDriver, {
      "burst.svg": picture,
    });
    expect(again.code).toBe(0);
    expect(again.io.files.get("burst.svg")).not.toBe(picture);
    const foreign = await told(["burst", "coil.yaml", "--svg", "notes.txt"], quietDriver, { "notes.txt": "mine" });
    expect(foreign.code).toBe(2);
    expect(foreign.io.files.get("notes.txt")).toBe("mine");
  });

  it("are not there where no burst can be computed", async () => {
    const { code, err } = await told(
      ["burst", "coil.yaml", "--csv", "-"],
      editedText(quietDriver, { supply: undefined }),
    );
    expect(code).toBe(2);
    expect(err).toContain("no burst can be computed from this file, so there are no waveforms");
  });
});

describe("coilwright driver", () => {
  it("says for each part whether it holds, and how long the bus stays charged", async () => {
    const { code, out } = await told(["driver", "coil.yaml"]);
    expect(code).toBe(0);
    expect(out).toMatch(/The switches see 30\.0 A at the peak, 15 % of their pulse rating/);
    expect(flat(out)).toMatch(
      /The bus holds 7\.04 J at 358 V with the mains 10 % high, and takes 29\.5 s, up to 37\.1 s, to fall to 60 V after the plug is out: measure before you touch\./,
    );
    expect(out).toContain("the rail of 12 V has");
    for (const id of ["switch.junctionPeak", "bus.dischargeTime", "mains.inrushPeak", "control.rail.2.headroom"]) {
      expect(out).toContain(` ${id}\n`);
    }
    expect(out).not.toContain(" burst.peakTopVoltage\n");
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("says so where nothing discharges the bus", async () => {
    const { code, out } = await told(
      ["driver", "coil.yaml"],
      editedText(quietDriver, { "supply.capacitors.bleeder": undefined }),
    );
    expect(code).toBe(1);
    expect(flat(out)).toContain("and nothing in the file discharges it.");
    expect(out).toContain("fix   supply.capacitors.bleeder: nothing in the file discharges the bus");
  });

  it("judges the sections that are there where no burst can be computed", async () => {
    const { out } = await told(
      ["driver", "coil.yaml"],
      editedText(quietDriver, { primary: undefined, tank: undefined }),
    );
    expect(out).toContain("The bus holds 7.04 J");
    expect(out).toContain(" gate.riseTime\n");
    const none = await told(
      ["driver", "coil.yaml"],
      editedText(quietDriver, { bridge: undefined, supply: undefined, feedback: undefined }),
    );
    expect(flat(none.out)).toContain("there is no driver to judge");
  });

  it("prints the same as JSON", async () => {
    const { out } = await told(["driver", "coil.yaml", "--json"]);
    const answer = JSON.parse(out);
    expect(Object.keys(answer)).toEqual([
      "quantities",
      "findings",
      "setting",
      "missing",
      "remarks",
      "reached",
      "junction",
    ]);
    expect(answer.quantities["bus.dischargeTime"].value).toBeCloseTo(29.5, 1);
    expect(answer.junction.time).toHaveLength(answer.junction.temperature.length);
  });
});

describe("a page of one room", () => {
  it("tells what to stop for elsewhere, and counts the rest", async () => {
    const text = editedText(quietDriver, {
      "primary.strikeRing.earthed": "false",
      "supply.capacitors.bleeder": undefined,
      "bridge.gate.resistor": "4.7 Ω",
    });
    const { code, out } = await told(["burst", "coil.yaml"], text);
    expect(code).toBe(1);
    expect(out).toContain("stop  primary.strikeRing.earthed:");
    expect(out).toContain("and 2 more elsewhere, 1 of them to fix");
    expect(out).not.toContain("look  bridge.gate.resistor");
  });
});

describe("coilwright why and doubt, asked about a burst", () => {
  it("explain a figure of it as any other", async () => {
    const { code, out } = await told(["why", "coil.yaml", "burst.peakPrimaryCurrent", "--quick"]);
    expect(code).toBe(0);
    expect(out).toMatch(/^burst\.peakPrimaryCurrent {2}30\.0 A {2}burst: peak primary current\n/);
    expect(out).toContain("tank.inductance");
    expect(out).toContain("docs/burst.md");
    expect(out).toContain("ring-up of the tank alone");
  });

  // exact: t = R·C·ln(V0/60 V): one per cent of bleeder or capacitor is one per cent of the time
  it("move the numbers of the driver, and say which measurement would shrink the doubt", async () => {
    const { out } = await told(["why", "coil.yaml", "bus.dischargeTime"]);
    expect(out).toMatch(/supply\.capacitors\.bleeder +\+1\.0 % per %/);
    expect(out).toMatch(/supply\.capacitors\.each +\+1\.0 % per %/);
    expect(out).toContain("chord");
    const doubt = await told(["doubt", "coil.yaml", "bus.dischargeTime"]);
    expect(doubt.out).toMatch(/^bus\.dischargeTime {2}29\.5 s {2}90 % within/);
    expect(doubt.out).toMatch(/Measuring supply\.capacitors\.each would shrink it most\.\n$/);
  });

  it("explain a rule of theirs", async () => {
    const { out } = await told(["why", "coil.yaml", "bus-discharge-slow"]);
    expect(out).toContain("by           bus.dischargeTime, bus.bleederPower, bus.storedEnergy");
    expect(out).toContain("found here   nothing");
  });

  it("suggest the id that was meant", async () => {
    const { code, err } = await told(["why", "coil.yaml", "burst.peakTopVolts"]);
    expect(code).toBe(2);
    expect(err).toContain("did you mean burst.peakTopVoltage?");
  });
});
