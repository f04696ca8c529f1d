import { beforeAll, describe, expect, it } from "vitest";
import { quantities } from "../../src/catalogue/index.ts";
import type { Coil } from "../../src/description/coil.ts";
import { costAt, dutyAt, greatest } from "../../src/programme/index.ts";
import { readCoil } from "../../src/readers/coil-file.ts";
import { study } from "../../src/workbench/burst-stage.ts";
import type { Solution } from "../../src/workbench/contract.ts";
import { planProgramme } from "../../src/workbench/programme.ts";
import { pulseCosts } from "../../src/workbench/programme-costs.ts";
import { limitsOf } from "../../src/workbench/programme-limits.ts";
import { gateWav, previewWav, scheduleFirmware } from "../../src/workbench/programme-outputs.ts";
import { glideSong, toneSong } from "../../src/workbench/programme-tones.ts";
import { solve } from "../../src/workbench/solve.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { songOf, tone } from "../programme/songs.ts";

let coil: Coil;
let solution: Solution;
beforeAll(() => {
  coil = readCoil(quietDriver).coil!;
  solution = solve(coil, { brief: true });
});

const melody = songOf([48, 50, 52, 53, 43].map((pitch, n) => tone({ start: 0.4 * n, end: 0.4 * n + 0.35, pitch })));
const figureOf = (made: ReturnType<typeof planProgramme>, id: string) => made.figures.get(id)?.value ?? Number.NaN;

describe("planProgramme", () => {
  it("gives every figure of the group, in the order of the catalogue", () => {
    const { figures } = planProgramme(coil, solution, melody);
    const ids = [...quantities.values()].filter(({ group }) => group === "programme").map(({ id }) => id);
    expect([...figures.keys()]).toEqual(ids.filter((id) => figures.has(id)));
    for (const id of ["programme.pulses", "programme.peakDuty", "programme.junctionPeak", "programme.pitchError"])
      expect(figures.has(id), id).toBe(true);
  });

  // law: pulses wanted are sent, merged, left out or muted
  it("accounts for every pulse", () => {
    const chord = songOf([48, 52, 55, 60].map((pitch, voice) => tone({ start: 0, end: 1, pitch }, { voice })));
    const made = planProgramme(coil, solution, chord, { muted: [3] });
    const muted = made.reasons.muted.dropped;
    expect(muted).toBeGreaterThan(0);
    expect(
      figureOf(made, "programme.pulses") +
        figureOf(made, "programme.merged") +
        figureOf(made, "programme.dropped") +
        muted,
    ).toBe(figureOf(made, "programme.wanted"));
    expect(made.voices[3]).toMatchObject({ sent: 0, silent: 1 });
    const { wanted, sent, trimmed } = made.history;
    const sum = (values: Float64Array) => values.reduce((all, one) => all + one, 0);
    expect(sum(wanted)).toBe(figureOf(made, "programme.wanted"));
    expect(sum(sent) + sum(trimmed)).toBe(figureOf(made, "programme.pulses"));
  });

  // law: the worst of the history is the figure
  it("shows its worst in the history", () => {
    const made = planProgramme(coil, solution, melody);
    expect(greatest(made.history.duty)).toBeCloseTo(figureOf(made, "programme.peakDuty"), 12);
    expect(greatest(made.history.junction) - 273.15).toBeCloseTo(figureOf(made, "programme.junctionPeak"), 9);
    expect(greatest(made.history.power)).toBeCloseTo(figureOf(made, "programme.peakPower"), 9);
    expect(greatest(dutyAt(made.plan.course, 20e-3))).toBeLessThanOrEqual(limitsOf(coil)!.limits.duty * (1 + 1e-9));
  });

  // law: a transposition by twelve semitones doubles every frequency
  it("transposes", () => {
    const plain = planProgramme(coil, solution, toneSong({ frequency: 50, lasts: 2 }));
    const high = planProgramme(coil, solution, toneSong({ frequency: 50, lasts: 2 }), { transpose: 12 });
    expect(figureOf(plain, "programme.wanted")).toBe(100);
    expect(figureOf(high, "programme.wanted")).toBe(200);
  });

  it("plans nothing without an interrupter, and says so", () => {
    const { interrupter: _, ...without } = coil;
    const made = planProgramme(without, solution, melody);
    expect(made.plan.schedule.start).toHaveLength(0);
    expect(made.limits).toBeUndefined();
    expect(made.missing.map(({ path }) => path)).toContain("interrupter");
  });

  it("takes the setting for limits that the file does not have", () => {
    const made = planProgramme({ ...coil, interrupter: { onTime: 50e-6, rate: 100 } }, solution, melody);
    expect(made.limitsAssumed).toBe(true);
    expect(made.limits).toMatchObject({ onTime: 50e-6, rate: 100 });
    expect(figureOf(made, "programme.longestOnTime")).toBeLessThanOrEqual(50e-6);
  });

  it("plans without a bridge by the interrupter's limits alone", () => {
    const { bridge: _, ...without } = coil;
    const made = planProgramme(without, solution, melody);
    expect(figureOf(made, "programme.pulses")).toBeGreaterThan(0);
    expect(made.figures.has("programme.junctionPeak")).toBe(false);
    expect(made.missing.map(({ path }) => path)).toContain("bridge");
  });

  it("shows what a fit has changed", () => {
    const high = songOf([84, 86, 88].map((pitch, n) => tone({ start: n, end: n + 0.8, pitch })));
    const made = planProgramme(coil, solution, high, { fit: true });
    expect(made.fit!.before.figures.get("programme.notesLowered")!.value).toBe(3);
    expect(figureOf(made, "programme.notesLowered")).toBe(0);
    expect(made.fit!.steps.map(({ kind }) => kind)).toContain("transpose");
  });

  it("refuses a song that is none", () => {
    const wrong = { ...melody, notes: [...melody.notes].reverse() };
    expect(() => planProgramme(coil, solution, wrong)).toThrow("comes after");
    expect(() => planProgramme(coil, solution, { ...melody, voices: [] })).toThrow("voice 0");
  });
});

describe("the energies of a programme", () => {
  // independent: a tone at the interrupter's own setting is the steady train that the burst stage studies by itself
  it("agree with the burst stage for a steady tone", () => {
    const { onTime, rate } = coil.interrupter!;
    const made = planProgramme(coil, solution, toneSong({ frequency: rate, lasts: 5 }), {
      equalLoudness: false,
      onTime,
    });
    const burst = study(coil, solution).figures;
    const drawn = burst.get("burst.energyDrawn")!.value - burst.get("burst.energyReturned")!.value;
    const power = made.figures.get("programme.peakPower")!;
    expect(drawn * rate).toBeGreaterThan(power.low! * 0.98);
    expect(drawn * rate).toBeLessThan(power.high! * 1.02);
    // The heatsink is still cold in the song: the junction over the case is what must agree, and the song may not be hotter at the case.
    const { most: _, ambient, terms } = made.limits!.junction!;
    const over = burst.get("switch.junctionPeak")!.value - burst.get("switch.case")!.value;
    const heatsink = terms.at(-1)![0];
    const loss = made.plan.course.loss.reduce((sum, one) => sum + one, 0);
    const warmed = heatsink * (loss / 5) * -Math.expm1(-5 / terms.at(-1)![1]);
    const rise = made.figures.get("programme.junctionPeak")!.value + 273.15 - ambient - warmed;
    expect(rise / over).toBeGreaterThan(0.8);
    expect(rise / over).toBeLessThan(1.35);
  });

  // independent: the burst solver at on-times and buses that are no points of the table
  it("keep the error bound that they name", () => {
    const { limits } = limitsOf(coil)!;
    const made = pulseCosts(coil, solution, { longest: limits.onTime, highest: limits.rate, setting: {} })!;
    const full = Math.SQRT2 * coil.supply!.mains.voltage;
    const top = made.costs.drawn.values.at(-1)!;
    for (const [share, bus] of [
      [0.41, 1],
      [0.66, 0.9],
      [0.83, 1],
      [0.97, 0.8],
    ] as const) {
      const solved = [20, coil.interrupter!.rate, limits.rate].map((rate) => {
        const { figures } = study(coil, solution, { onTime: share * limits.onTime, rate, busVoltage: bus * full });
        return figures.get("burst.energyDrawn")!.value - figures.get("burst.energyReturned")!.value;
      });
      const most = Math.max(...solved);
      const found = costAt(made.costs.drawn, share * limits.onTime, bus);
      expect(Math.abs(found - most) / Math.max(most, 0.1 * top)).toBeLessThan(1.5 * made.error + 0.02);
    }
  });
});

describe("tones for measurement", () => {
  // law: pulses of a glide by equal intervals are the integral of the frequency, (f2 − f1)·T/ln(f2/f1)
  it("glide by their phase", () => {
    const made = planProgramme(coil, solution, glideSong({ from: 30, to: 120, lasts: 4 }));
    expect(figureOf(made, "programme.wanted")).toBeCloseTo((90 * 4) / Math.log(4), -0.5);
  });
  it("refuse what is no frequency", () => {
    expect(() => toneSong({ frequency: 0, lasts: 1 })).toThrow("positive");
  });
});

describe("the ways out", () => {
  const sizeOf = (pieces: Iterable<Uint8Array>) => [...pieces].reduce((sum, { length }) => sum + length, 0);
  it("make sound, gate pulses and a program", () => {
    const made = planProgramme(coil, solution, melody);
    expect(sizeOf(previewWav(made))).toBeGreaterThan(2 * 48_000 * 1.9);
    const { pieces, error } = gateWav(made, { rate: 192_000 });
    expect(sizeOf(pieces)).toBeGreaterThan(2 * 192_000 * 1.9);
    expect(error.lost).toBe(0);
    expect(error.startWorst).toBeLessThan(3e-6);
    const files = scheduleFirmware(made)!;
    expect(files.map(({ name }) => name)).toContain("schedule.h");
    expect(files.find(({ name }) => name === "limits.h")!.text).toContain("1");
  });
});

describe("a limit of the on-time that is far above what is played", () => {
  const withLimit = (onTime: number): Coil => ({
    ...coil,
    interrupter: { ...coil.interrupter!, limits: { ...coil.interrupter!.limits!, onTime } },
  });

  // law: what a pulse costs does not depend on a limit that it does not come near; the table in between says how far it is off
  it("leaves the energies as they are", () => {
    const [near, far] = [55e-6, 100e-3].map((limit) => planProgramme(withLimit(limit), solution, melody));
    const [power, other] = [near!, far!].map((made) => figureOf(made, "programme.meanPower"));
    expect(Math.abs(other! / power! - 1)).toBeLessThan(near!.energyError! + far!.energyError!);
    expect(far!.missing).toEqual(near!.missing);
  });

  // law: what is not followed to its end is not known; no bound is made of a part of it
  it("leaves the energies out, and says so, where the pulses themselves are that long", () => {
    const made = planProgramme(withLimit(100e-3), solution, melody, { onTime: 100e-3 });
    expect(made.figures.has("programme.meanPower")).toBe(false);
    expect(made.missing.find(({ path }) => path === "interrupter.onTime")?.says).toContain("are not known");
  });
});
