import { describe, expect, it } from "vitest";
import { burstText } from "../../../src/views/text/burst.ts";
import { driverText } from "../../../src/views/text/driver.ts";
import { energyText } from "../../../src/views/text/energy.ts";
import { quietBurst } from "../../findings/changed.ts";
import { handMadeBurst, handMadeWithout } from "../hand-made-burst.ts";

const { coil } = quietBurst().solution;
const page = (study = handMadeBurst, more = {}) =>
  burstText({ name: "Lantern", study, fileName: "lantern.yaml", ...more });

// guard, looked at
describe("the head of the burst page", () => {
  it("tells the course, the peaks and the reach", () =>
    expect(page()).toBe(`Lantern  lantern.yaml
Bursts of 40 µs, 150 a second, from a bus of 320.0 V. Each is driven for
40.0 µs, 8 half-cycles at 100.0 kHz, on the lower pole.
The primary current peaks at 100 A, the bank at 2.00 kV, the top at 60.0 kV. A
burst draws 120 mJ and gives 20.0 mJ back; 33 % of what it keeps go to the
streamer.
The top breaks out after 27 µs, at 40.0 kV; in free air the streamer reaches
200 mm, 100 … 500 mm (90 %).
`));

  it("says what the interrupter's limits and a missing breakout would add", () => {
    const atLimits = { ...handMadeBurst, setting: { ...handMadeBurst.setting, onTime: 60e-6, rate: 200 } };
    const unlit = { ...handMadeBurst, tripTime: 30e-6 };
    const words = page(handMadeBurst, { atLimits, unlit }).replaceAll("\n", " ");
    expect(words).toContain(
      "bursts of 60 µs, 200 a second: 100 A in the primary, 60.0 kV on the top, a reach of up to 500 mm.",
    );
    expect(words).toContain("would come to 100 A and 60.0 kV, where the overcurrent setting ends it.");
  });

  it("says so where the top does not break out, or cannot", () => {
    expect(page({ ...handMadeBurst, breakoutTime: undefined }).replaceAll("\n", " ")).toContain(
      "The top does not break out: that takes 40.0 kV. A point, a scratch or dust on it may still draw 100 … 500 mm (90 %).",
    );
    expect(page({ ...handMadeBurst, setting: { ...handMadeBurst.setting, streamer: false } })).toContain(
      "No streamer was reckoned with",
    );
    expect(page({ ...handMadeBurst, setting: { ...handMadeBurst.setting, breakoutVoltage: 0 } })).toContain(
      "no top load to break out",
    );
  });

  it("passes on what the numbers alone do not say, and what is missing", () => {
    expect(page({ ...handMadeBurst, remarks: ["the bus is too small"] })).toContain("Note: the bus is too small.");
    const missing = [{ path: "bridge", says: "without a bridge there is no burst" }];
    expect(page({ ...handMadeWithout("burst.peakPrimaryCurrent"), missing })).toBe(
      "Lantern  lantern.yaml\nbridge: without a bridge there is no burst.\n",
    );
  });
});

// guard, looked at
describe("the head of the driver page", () => {
  const words = (study = handMadeBurst) => driverText({ coil, study, fileName: "lantern.yaml" });

  it("has a sentence for each part, and never leaves out how long the bus stays charged", () =>
    expect(words()).toBe(`Quiet driver  lantern.yaml
The switches see 100 A at the peak, 50 % of their pulse rating, and their
junctions peak at 60.0 °C (55.0 … 72.0 °C), against a limit of 150 °C.
The bus holds 64.0 J at 358 V with the mains 10 % high, and takes 84 s, up to
106 s, to fall to 60 V after the plug is out: measure before you touch. It
stands at 320.0 V, sags by 2.0 V in a burst and ripples by 8.0 V.
From the mains it takes 400 mA for 50.0 W through a fuse of 2 A, and up to
34.0 A at switch-on, cold.
The gates change 80 ns after the crossing of the current: at most nothing to
switch off, and 12.0 A to take over from the opposite diode.
At low mains and full load the rail of 12 V has 2.5 V to spare.
`));

  it("says so where nothing discharges the bus, or nothing is known of a load", () => {
    expect(words(handMadeWithout("bus.dischargeTime"))).toContain("and nothing in the file\ndischarges it.");
    const idle = words(handMadeWithout("bus.sagPerBurst", "mains.currentRms", "switch.junctionPeak"));
    expect(idle).not.toContain("It stands at");
    expect(idle).toContain("From the mains it takes up to 34.0 A at switch-on, cold.");
    expect(idle).not.toContain("The switches see");
  });
});

describe("the account of one burst", () => {
  // law: thirds of 100.0 mJ, printed with one decimal, still add up to 100.0
  it("adds up in print where the parts do not divide", () => {
    const account = energyText({ figures: handMadeBurst.figures })!;
    expect(account).toBe(`energy of one burst               mJ
  drawn from the bus           120.0  100.0 %  burst.energyDrawn
  given back to it             −20.0  −16.7 %  burst.energyReturned
  kept                         100.0   83.3 %  of it:
    switches                    33.4   33.4 %  ██████▋              switches
    diodes                       0.0    0.0 %                       diodes
    bus capacitors               0.0    0.0 %                       bus
    primary and leads           33.3   33.3 %  ██████▋              primary
    tank capacitors              0.0    0.0 %                       tank
    secondary                    0.0    0.0 %                       secondary
    streamer                    33.3   33.3 %  ██████▋              streamer
    still ringing                0.0    0.0 %                       stored
`);
  });

  it("does not hide a ledger that does not close", () => {
    const figures = new Map(handMadeBurst.figures);
    figures.set("burst.energy.streamer", { ...figures.get("burst.energy.streamer")!, value: 0.05 });
    expect(energyText({ figures })).toContain("streamer                    50.0");
    expect(energyText({ figures })).toContain("switches                    33.3");
  });

  it("is nothing where no burst was computed", () =>
    expect(energyText({ figures: handMadeWithout("burst.energyDrawn").figures })).toBeUndefined());
});
