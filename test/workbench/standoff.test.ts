import { describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/quantities.ts";
import { sources } from "../../src/catalogue/sources.ts";
import { hazards } from "../../src/description/hazards.ts";
import { electricField, tissueAt } from "../../src/safety/index.ts";
import { fieldMap } from "../../src/workbench/field-map.ts";
import { showDayChecklist } from "../../src/workbench/standoff-checklist.ts";
import { blockingHazards } from "../../src/workbench/standoff-hazards.ts";
import { chargesOf } from "../../src/workbench/standoff-sources.ts";
import { demo, demoNames, quietWith } from "./standoff-coils.ts";

const value = ({ found }: { found: { figures: ReadonlyMap<string, { value: number }> } }, id: string) =>
  found.figures.get(id)!.value;

describe("standoff", () => {
  // law: figures are the catalogue's, with interval and source; the line is the greatest of its candidates
  it.each(demoNames)("of %s gives every figure of the catalogue that needs no show, each with an interval", (name) => {
    const { found } = demo(name);
    const ids = [...quantities.keys()].filter((id) => id.startsWith("standoff.") && id !== "standoff.noise.distance");
    expect([...found.figures.keys()]).toEqual(ids);
    for (const figure of found.figures.values()) {
      expect(figure.low, figure.id).toBeDefined();
      expect(sources.has(figure.source)).toBe(true);
      expect(found.standing[figure.source]).toBe(sources.get(figure.source)!.standing);
    }
    const distances = found.line.candidates.flatMap(({ distance }) => distance ?? []);
    expect(value({ found }, "standoff.audience")).toBe(Math.max(...distances));
    expect(found.line.decides?.distance).toBe(Math.max(...distances));
  });

  // law: the upper bound is of the worst burst, the interrupter's limits included
  it("takes the reach at the interrupter's limits, and the strike distance from it", () => {
    const [tame, wild] = [quietWith({}), quietWith({ "interrupter.limits.onTime": "120 µs" })];
    expect(value(wild, "standoff.reach")).toBeGreaterThan(value(tame, "standoff.reach"));
    expect(value(wild, "standoff.strike")).toBeCloseTo(1.5 * value(wild, "standoff.reach"), 12);
    expect(wild.found.basis).toContain("interrupter's limits");
    const high = Math.max(
      ...[wild.bursts.study, wild.bursts.atLimits, wild.bursts.unlit, ...(wild.bursts.beyond ?? [])].map(
        (one) => one?.figures.get("burst.streamerLength")?.high ?? 0,
      ),
    );
    expect(value(wild, "standoff.reach")).toBe(high);
  });

  // law: all of the charge is the base's; the profile's first point lies half a turn up, which is 0.1 % of it
  it("places the charge that the base of the winding delivers", () => {
    const { solution, found } = demo("inkwell");
    const charges = chargesOf(solution, { topVoltage: 1e5, height: found.place.middle });
    const total = charges.reduce((sum, { charge }) => sum + charge, 0);
    expect(total / (1e5 * solution.figures.get("secondary.terminalCapacitance")!.value)).toBeCloseTo(1, 2);
    for (const { height } of charges) expect(height).toBeLessThanOrEqual(found.place.top);
  });

  // independent: the charges of the boundary elements on every surface, primary included, seen on the field map of the same coil in the open
  it("makes a field like that of the solved charges, and never much less", () => {
    const { coil, solution, found } = quietWith({
      "site.wall": undefined,
      "site.ceiling": undefined,
      "site.people": "[]",
      "site.objects": "[]",
    });
    const charges = chargesOf(solution, { topVoltage: 1, height: found.place.middle });
    const map = fieldMap(coil, { radius: 4, height: 0.4, columns: 41, rows: 41 });
    for (const distance of [1, 2, 3]) {
      const column = map.radius.findIndex((radius) => Math.abs(radius - distance) < 1e-9);
      const solved = map.field[20 * 41 + column]!;
      const ratio = electricField(charges, { radius: distance, height: map.height[20]! }) / solved;
      expect(ratio).toBeGreaterThan(0.97);
      expect(ratio).toBeLessThan(1.35);
    }
  });

  // law: a field that is computed at the deciding distance is the level that decides
  it("meets the level where the level decides", () => {
    const { found } = demo("belfry");
    expect(found.line.decides?.id).toBe("electric");
    expect(value({ found }, "standoff.rf.electricField")).toBeCloseTo(83, 1);
    expect(found.fields?.comparisons.filter(({ source }) => source === "icnirp-2020-local")).toEqual([]);
    expect(demo("thimble").found.fields?.comparisons).toHaveLength(12);
  });

  // common practice, no source: about three metres for the half-metre class; by its arc alone, within a factor of two
  it("draws no line nearer than practice, and that of the half-metre class within a factor of two", () => {
    for (const name of demoNames) expect(value(demo(name), "standoff.audience")).toBeGreaterThanOrEqual(3);
    const inkwell = demo("inkwell").found.figures.get("standoff.audience")!;
    const byReach = inkwell.crossChecks.find(({ name }) => name === "by reach alone")!;
    expect(byReach.value).toBeLessThan(6);
    const check = inkwell.crossChecks.find(({ source }) => source === "half-metre-practice");
    expect(check).toMatchObject({ value: 3, valid: true });
  });

  // law: a longer show asks for more room, 3 dB for a doubling; a measured level replaces the estimate
  it("lets the length of the show and a measured level into the line", () => {
    const short = quietWith({ "show.duration": "900 s" });
    const long = quietWith({ "show.duration": "3600 s" });
    expect(value(long, "standoff.noise.distance") / value(short, "standoff.noise.distance")).toBeCloseTo(2, 1);
    const measured = quietWith({ "show.noise": "{ level: 96, at: 2 m }" });
    const level = measured.found.figures.get("standoff.noise.levelAt1m")!;
    expect(level.value).toBeCloseTo(96 + 6.02 - 3, 1);
    expect(level).toMatchObject({ source: "show-noise-measured" });
    expect(measured.found.noise?.measured).toBe(true);
    expect(level.high! - level.low!).toBeCloseTo(6, 9);
  });

  // law: sound power goes with the duty of what is played
  it("follows the duty of the programme", () => {
    const set = quietWith({ "show.duration": undefined });
    const duty = set.coil.interrupter!.onTime * set.coil.interrupter!.rate;
    const halved = quietWith({ "show.duration": undefined }, { meanDuty: duty / 2, duration: 600 });
    expect(value(set, "standoff.noise.levelAt1m") - value(halved, "standoff.noise.levelAt1m")).toBeCloseTo(3.01, 2);
    expect(halved.found.noise?.duration).toBe(600);
  });

  // independent: ½CV² and RC·ln(V0/60 V) by hand for the quiet driver: 110 µF + 20 %, 150 kΩ + 5 %, 230 V + 10 %
  it("tells the waiting time at the upper tolerances, and none with an open bleeder", () => {
    const { found } = quietWith({});
    const [bus, tank, top] = found.stored.stores;
    const peak = 1.1 * Math.SQRT2 * 230;
    expect(bus!.energy).toBeCloseTo(0.5 * 132e-6 * peak ** 2, 6);
    expect(bus!.waiting).toBeCloseTo(157.5e3 * 132e-6 * Math.log(peak / 60), 6);
    expect([bus, tank, top].map((one) => one!.waitingWithFailedBleeder)).toEqual(["none", "none", "none"]);
    const without = quietWith({ "supply.capacitors.bleeder": undefined }).found;
    expect(without.stored.stores[0]!.waiting).toBe("none");
    expect(without.missing.map(({ path }) => path)).toContain("supply.capacitors.bleeder");
    expect(without.stored.steps.join(" ")).toContain("stays charged for days");
  });

  // law: verdicts by the upper end of the current and the lower end of the threshold; none where nothing is published
  it("judges the bands of a touch, and gives no verdict where nothing is published", () => {
    const { bands, first, depths } = demo("inkwell").found.touch;
    expect(bands.map(({ id }) => id)).toEqual(["direct", "line1", "audible", "carrier"]);
    for (const { thresholds, current } of bands) {
      for (const { span, verdict } of thresholds) {
        expect(verdict).toBe(span === undefined ? "no published threshold" : current.high > span[0] ? "over" : "under");
      }
    }
    const carrier = bands[3]!.thresholds;
    expect(carrier.filter(({ verdict }) => verdict === "no published threshold").map(({ effect }) => effect)).toEqual([
      "letGo",
      "breathing",
      "fibrillation",
    ]);
    expect(bands[1]!.byAsymmetry?.map(({ asymmetry }) => asymmetry)).toEqual([0.01, 0.05, 0.3]);
    expect(first[0]).toContain("primary");
    const { frequency } = demo("inkwell").found.fields!;
    expect(depths.find(({ tissue }) => tissue === "muscle")!.depth).toBe(
      tissueAt("muscle", frequency).penetrationDepth,
    );
  });

  // law: without a burst there is no line, and it says so
  it("says what it cannot know", () => {
    const { found, coil } = quietWith({ feedback: undefined, show: undefined });
    expect(found.figures.has("standoff.audience")).toBe(false);
    expect(found.missing[0]!.says).toContain("nobody but the operator");
    for (const path of [
      "feedback",
      "show.earth",
      "show.breaker",
      "show.deadMan",
      "show.second",
      "show.exit",
      "show.barrier",
      "show.duration",
    ]) {
      expect(found.missing.map((one) => one.path)).toContain(path);
    }
    expect(blockingHazards(coil, found).map(({ rule }) => rule)).toContain("standoff-line-unknown");
  });
});

describe("blockingHazards", () => {
  it("blocks until each hazard is acknowledged by its name", () => {
    const { coil, found } = demo("inkwell");
    const names = Object.keys(hazards);
    const open = blockingHazards(coil, found);
    expect(open.map(({ severity }) => severity)).toEqual(names.map(() => "stop"));
    for (const [index, name] of names.entries()) expect(open[index]!.what).toContain(`hazard ${name} `);
    const all = quietWith({});
    expect(blockingHazards(all.coil, all.found)).toEqual([]);
    const one = quietWith({ "show.acknowledged": `[ ${names.filter((name) => name !== "fire").join(", ")} ]` });
    expect(blockingHazards(one.coil, one.found).map(({ what }) => what)).toEqual([
      expect.stringContaining("hazard fire "),
    ]);
  });

  // law: nobody acknowledges by a key press: no remedy writes the names
  it("offers no edit that acknowledges", () => {
    const { coil, found } = demo("thimble");
    expect(blockingHazards(coil, found).flatMap(({ remedies }) => remedies.flatMap(({ edits }) => edits))).toEqual([]);
  });
});

describe("showDayChecklist", () => {
  it.each(demoNames)("of %s is for two people and has this coil's own numbers", (name) => {
    const { coil, found } = demo(name);
    const parts = showDayChecklist(coil, found);
    const items = parts.flatMap((part) => part.items);
    expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
    expect(new Set(items.map(({ by }) => by))).toEqual(new Set(["operator", "second", "both"]));
    const text = items.map(({ says }) => says).join(" ");
    for (const words of [
      "second person",
      "Local emergency number",
      "Hearing protection",
      "implant",
      "Unplug",
      "Wait",
      "every shock above a tingle",
    ]) {
      expect(text.toLowerCase()).toContain(words.toLowerCase());
    }
    const wait = found.stored.stores[0]!.waiting;
    expect(wait).not.toBe("none");
    expect(text).toContain(`Wait ${Math.ceil(Number(wait) - 1e-9)}`);
  });
});
