import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { fateOf, type Plan, planSong, reasons } from "../../src/programme/index.ts";
import { brokenLimits } from "./checker.ts";
import { anyLimits, anyLoad, anyShaping, anySong, plainShaping, roomyLimits, songOf, tone } from "./songs.ts";

/** What every plan says of itself, whatever the song. */
function contradictions({ schedule, into, course }: Plan): string[] {
  const { note, start, wantedStart, onTime, wantedOnTime, reason } = schedule;
  const found: string[] = [];
  const length = start.length;
  if (![note, wantedStart, onTime, wantedOnTime, reason, into].every((each) => each.length === length))
    found.push("arrays of unlike length");
  let sent = 0;
  for (let n = 0; n < length; n++) {
    if (n > 0 && start[n]! < start[n - 1]!) found.push(`entry ${n} begins before the one before it`);
    if (onTime[n]! > wantedOnTime[n]!) found.push(`entry ${n} is longer than wanted`);
    const fate = fateOf({ schedule, into }, n);
    if (onTime[n]! > 0) sent++;
    if (fate === "sent" && onTime[n] !== wantedOnTime[n]) found.push(`entry ${n} is shorter and has no reason`);
    if (fate === "dropped" && reason[n] === 0) found.push(`entry ${n} is left out and has no reason`);
    if (reason[n]! >= reasons.length) found.push(`entry ${n} has no such reason`);
    if (into[n]! >= 0 && onTime[n]! > 0) found.push(`entry ${n} is merged and sent`);
  }
  if (course.pulse.length !== sent) found.push("the course is not of the pulses sent");
  return found;
}

describe("planSong over songs, limits and costs by chance", () => {
  // law: the limits' definitions, checked by brute force in checker.ts; superposition for heat where the planner marches
  it("never breaks a limit", () => {
    fc.assert(
      fc.property(
        anySong,
        anyLimits,
        anyShaping,
        fc.option(anyLoad, { nil: undefined }),
        (song, limits, shaping, load) => {
          const plan = planSong(song, { limits, shaping, ...(load ? { load } : {}) });
          expect(brokenLimits(plan.schedule, limits, load)).toEqual([]);
          expect(contradictions(plan)).toEqual([]);
        },
      ),
      { numRuns: 250, endOnFailure: true },
    );
  }, 60_000);

  // law: a plan is a function of its inputs
  it("gives the same schedule again", () => {
    fc.assert(
      fc.property(anySong, anyLimits, anyShaping, (song, limits, shaping) => {
        expect(planSong(song, { limits, shaping }).schedule).toEqual(planSong(song, { limits, shaping }).schedule);
      }),
      { numRuns: 30 },
    );
  });

  // law: the checker itself sees a fault of each kind
  it("is checked by something that can fail", () => {
    const song = songOf([tone({ start: 0, end: 1.2, pitch: 69 })]);
    const { schedule } = planSong(song, { limits: roomyLimits, shaping: plainShaping });
    const costs = { step: 1e-4, values: Float64Array.of(0, 1), exponents: Float64Array.of(2, 2) };
    const load = {
      costs: { drawn: costs, switchLoss: costs, bankLoss: costs },
      bus: { voltage: 325, capacitance: 1e-3, refill: 10e-3 },
    };
    const heat = { terms: [[0.1, 0.01] as const], ambient: 300, most: 300.01 };
    const kinds = [
      [{ onTime: 20e-6 }, "on-time"],
      [{ gap: 2.3e-3 }, "gap"],
      [{ rate: 400 }, "starts in"],
      [{ duty: 0.005 }, "s on in"],
      [{ power: 20 }, "J in the second"],
      [{ bus: 320 }, "bus at"],
      [{ junction: heat }, "junction at"],
      [{ capacitor: heat }, "capacitor at"],
    ] as const;
    expect(brokenLimits(schedule, roomyLimits, load)).toEqual([]);
    for (const [tighter, says] of kinds)
      expect(brokenLimits(schedule, { ...roomyLimits, ...tighter }, load).join(), says).toContain(says);
  });
});
