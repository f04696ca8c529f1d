import { describe, expect, it } from "vitest";
import { assess, settingAtLimits, settingUnlit } from "../../src/findings/index.ts";
import { changedDriver, editedText, quietBurst, studied } from "./changed.ts";
import { quietDriver } from "./quiet-driver.ts";

const coilOf = (edits: Record<string, string | undefined> = {}) =>
  studied(editedText(quietDriver, edits)).solution.coil;
const found = (rule: string, parts: Parameters<typeof assess>[0]) => assess(parts).find((one) => one.rule === rule);

// law: what a burst was computed for is not estimated
describe("rules that need a voltage, a current or a reach", () => {
  it("take the computed one where there is one, and the rough bound where there is none", () => {
    const { file, solution, ...bursts } = changedDriver({
      edits: { "feedback.overcurrent": "150 A" },
      figures: { "burst.peakTopVoltage": 240e3 },
    });
    expect(found("winding-stress-along", { file, solution })?.what).toContain("that the tank's energy could raise");
    const computed = found("winding-stress-along", { file, solution, ...bursts });
    expect(computed?.what).toMatch(/^up to 5\.\d kV\/cm stand along the winding in a burst of 50 µs$/);
    expect(computed?.evidence).toContain("burst.peakTopVoltage");
    expect(computed?.severity).toBe("stop");
  });

  it("judge people by the upper end of the reach, and by the interrupter's limits where they let through more", () => {
    const base = changedDriver({ edits: { "site.people.0.at": "1.2 m" } });
    const withReach = (study: typeof base.study, high: number) => ({
      ...study,
      figures: new Map(study.figures).set("burst.streamerLength", {
        ...study.figures.get("burst.streamerLength")!,
        low: 0.05,
        value: 0.1,
        high,
      }),
    });
    const { atLimits: _limits, ...alone } = base;
    const atSetting = found("person-within-reach", { ...alone, study: withReach(base.study, 0.2) });
    expect(atSetting?.severity).toBe("fix");
    expect(atSetting?.what).toContain("may reach 200 mm in a burst of 50 µs");
    const harder = found("person-within-reach", {
      ...base,
      study: withReach(base.study, 0.2),
      atLimits: withReach(base.atLimits!, 1.5),
    });
    expect(harder?.severity).toBe("stop");
    expect(harder?.what).toContain("may reach 1.5 m in a burst of 55 µs, which the interrupter's limits let through");
  });

  it("say no worse than worth a look where only the limits would strain a part", () => {
    const strained = (limits?: Record<string, number>, figures?: Record<string, number>) =>
      found("junction-over-limit", changedDriver({ ...(figures ? { figures } : {}), ...(limits ? { limits } : {}) }))
        ?.severity;
    expect(strained()).toBeUndefined();
    expect(strained({ "switch.junctionPeak": 180 })).toBe("look");
    expect(strained(undefined, { "switch.junctionPeak": 180 })).toBe("fix");
    expect(strained(undefined, { "switch.junctionPeak": 210 })).toBe("stop");
  });

  it("name the burst without breakout where that one asks more of a part", () => {
    const finding = found("peak-current-over-pulse", changedDriver({ unlit: { "burst.peakPrimaryCurrent": 210 } }));
    expect(finding?.severity).toBe("look");
    expect(finding?.what).toContain(
      "210 A in a burst of 55 µs without breakout, which the interrupter's limits let through",
    );
  });
});

// law: the hardest burst that all limits together allow
describe("settingAtLimits", () => {
  it("takes the longest burst at the rate that duty, pause and rate limit leave", () => {
    // 1 % of duty in bursts of 55 µs would be 182 Hz, a pause of 1 ms 948 Hz; the limit on the rate is lower
    expect(settingAtLimits(coilOf())).toEqual({ onTime: 55e-6, rate: 130 });
    const byDuty = settingAtLimits(coilOf({ "interrupter.limits.rate": "500 Hz" }));
    expect(byDuty?.rate).toBeCloseTo(0.01 / 55e-6, 6);
    const byPause = settingAtLimits(coilOf({ "interrupter.limits.rate": "5 kHz", "interrupter.limits.duty": "90 %" }));
    expect(byPause?.rate).toBeCloseTo(1 / (55e-6 + 1e-3), 6);
  });

  it("keeps what else was moved, and is nothing where the limits allow no more", () => {
    expect(settingAtLimits(coilOf(), { busVoltage: 40 })).toEqual({ busVoltage: 40, onTime: 55e-6, rate: 130 });
    const spent = { "interrupter.limits.onTime": "50 µs", "interrupter.limits.rate": "100 Hz" };
    expect(settingAtLimits(coilOf(spent))).toBeUndefined();
    expect(settingAtLimits(coilOf({ "interrupter.limits": undefined }))).toBeUndefined();
  });

  // law: without a streamer, at the limits where they allow more
  it("leaves the streamer out of the burst without breakout, unless it is out already", () => {
    expect(settingUnlit(coilOf())).toEqual({ onTime: 55e-6, rate: 130, streamer: false });
    expect(settingUnlit(coilOf({ "interrupter.limits": undefined }), { rate: 40 })).toEqual({
      rate: 40,
      streamer: false,
    });
    expect(settingUnlit(coilOf(), { streamer: false })).toBeUndefined();
    const [lit, dark] = [quietBurst().atLimits!, quietBurst().unlit!];
    const top = "burst.peakTopVoltage";
    expect(dark.figures.get(top)!.value).toBeGreaterThan(1.2 * lit.figures.get(top)!.value);
  });

  // law: the quiet driver is studied at its limits too, or half of the cases would test nothing
  it("is another burst for the quiet driver", () => expect(quietBurst().atLimits?.setting.onTime).toBe(55e-6));
});
