import { describe, expect, it } from "vitest";
import {
  centsBetween,
  equalLoudness,
  fateOf,
  frequencyOf,
  pitchOf,
  pitchOfNotes,
  planSong,
  weightingA,
} from "../../src/programme/index.ts";
import { plainShaping, roomyLimits, songOf, tone } from "./songs.ts";

const limits = { ...roomyLimits, rate: 5000, duty: 0.5 };
const startsOf = (plan: ReturnType<typeof planSong>) =>
  [...plan.schedule.start].filter((_, n) => plan.schedule.onTime[n]! > 0);

describe("frequencyOf", () => {
  // published: equal temperament on A4 = 440 Hz (ISO 16:1975); C4 261.6256 Hz, A0 27.5 Hz, C8 4186.009 Hz in any table of it
  it.each([
    [69, 440],
    [60, 261.6256],
    [21, 27.5],
    [108, 4186.009],
  ])("key %i is %d Hz", (pitch, hertz) => {
    expect(frequencyOf(pitch)).toBeCloseTo(hertz, 3);
    expect(pitchOf(hertz)).toBeCloseTo(pitch, 5);
  });
});

describe("a note alone", () => {
  const keys = Array.from({ length: 88 }, (_, n) => 21 + n);
  // published: ISO 16; the frequency is written out here once more
  it.each(keys)("of key %i is in tune in the mean and from pulse to pulse", (pitch) => {
    const starts = startsOf(
      planSong(songOf([tone({ start: 0.1, end: 2.1, pitch })]), { limits: roomyLimits, shaping: plainShaping }),
    );
    const asked = 440 * 2 ** ((pitch - 69) / 12);
    // Notes above what rate and gap allow sound whole octaves lower.
    const octaves = Math.max(0, Math.ceil(Math.log2(asked / Math.min(3000, 1 / (100e-6 + 15e-6))) - 1e-9));
    const lowered = asked / 2 ** octaves;
    const mean = (starts.length - 1) / (starts.at(-1)! - starts[0]!);
    expect(Math.abs(1200 * Math.log2(mean / lowered))).toBeLessThan(1);
    for (let n = 1; n < starts.length; n++)
      expect(Math.abs(1200 * Math.log2(1 / (starts[n]! - starts[n - 1]!) / lowered))).toBeLessThan(5);
    expect(starts.length).toBeGreaterThan(1.99 * lowered - 1);
  });

  // law: with a frequency that changes in steps the phase goes on: turns after t are the integral of the frequency
  it("follows bends by its phase", () => {
    const bends = Array.from({ length: 100 }, (_, n) => ({ at: 0.2 + 0.01 * n, to: 57 + 0.12 * (n + 1) }));
    const starts = startsOf(
      planSong(songOf([tone({ start: 0.2, end: 1.7, pitch: 57 }, { bends })]), { limits, shaping: plainShaping }),
    );
    const phaseAt = (time: number): number => {
      let phase = 0;
      let from = 0.2;
      let pitch = 57;
      for (const { at, to } of bends) {
        if (at >= time) break;
        phase += (at - from) * 440 * 2 ** ((pitch - 69) / 12);
        [from, pitch] = [at, to];
      }
      return phase + (time - from) * 440 * 2 ** ((pitch - 69) / 12);
    };
    for (const [n, start] of starts.entries()) expect(phaseAt(start)).toBeCloseTo(n, 6);
  });
});

describe("notes together", () => {
  const chord = [48, 55, 60, 64].map((pitch, voice) => tone({ start: 0, end: 2, pitch }, { voice, velocity: 0.8 }));
  const song = songOf(chord);
  const plan = planSong(song, { limits, shaping: plainShaping });

  // law: a moved pulse keeps to its budget, so that the mean of a note cannot drift by more than two budgets over its length
  it("stay in tune in the mean", () => {
    const { cents } = pitchOfNotes(song, plan);
    for (const value of cents) expect(Math.abs(value)).toBeLessThan(1);
  });

  // independent: mean pitch from first and last pulse instead of least squares
  it("are measured by their own pulses", () => {
    const { schedule, asked, into } = plan;
    const { cents } = pitchOfNotes(song, plan);
    song.notes.forEach((note, index) => {
      const times: number[] = [];
      const wanted: number[] = [];
      schedule.start.forEach((_, n) => {
        if (asked[n] !== index || fateOf(plan, n) === "dropped") return;
        times.push(schedule.start[into[n]! < 0 ? n : into[n]!]!);
        wanted.push(schedule.wantedStart[n]!);
      });
      const found = (1200 / Math.LN2) * Math.log((wanted.at(-1)! - wanted[0]!) / (times.at(-1)! - times[0]!));
      expect(Math.abs(found - cents[index]!)).toBeLessThan(0.2);
      expect(note.pitch).toBeGreaterThan(0);
    });
  });

  // law: no pulse moves further than the budget of its period
  it("move no pulse past its budget", () => {
    const { schedule, asked, into } = plan;
    schedule.start.forEach((_, n) => {
      const carrier = into[n]! < 0 ? n : into[n]!;
      if (schedule.onTime[carrier] === 0) return;
      const period = 1 / frequencyOf(song.notes[asked[n]!]!.pitch);
      const budget = period * (2 ** (plainShaping.shift / 1200) - 1);
      expect(Math.abs(schedule.start[carrier]! - schedule.wantedStart[n]!)).toBeLessThan(budget + 1e-9);
    });
  });

  // law: starting phases are there so that an octave, which would meet at every second pulse, does not meet at all
  it("of an octave never meet", () => {
    const octave = songOf([tone({ start: 0, end: 1, pitch: 57 }), tone({ start: 0, end: 1, pitch: 69 }, { voice: 1 })]);
    const { schedule } = planSong(octave, { limits, shaping: plainShaping });
    expect([...schedule.reason].every((reason) => reason === 0)).toBe(true);
    expect(schedule.start).toEqual(schedule.wantedStart);
  });

  // law: of two pulses that cannot both be, the voice of higher priority keeps its own
  it("leave out the voice of lower priority first", () => {
    const close = songOf([
      tone({ start: 0, end: 1, pitch: 69 }),
      tone({ start: 0, end: 1, pitch: 69.03 }, { voice: 1 }),
      tone({ start: 0, end: 1, pitch: 70.4 }, { voice: 2 }),
    ]);
    const dense = { ...limits, gap: 900e-6 };
    for (const first of [0, 1, 2]) {
      const priorities = [0, 1, 2].map((voice) => (voice === first ? 5 : 1));
      const made = planSong(close, { limits: dense, shaping: { ...plainShaping, priorities, shift: 0 } });
      const kept = [0, 1, 2].map((voice) => {
        let sent = 0;
        made.schedule.start.forEach((_, n) => {
          if (made.asked[n] === voice && made.schedule.onTime[n]! > 0) sent++;
        });
        return sent;
      });
      expect(kept[first]).toBe(Math.max(...kept));
    }
  });
});

describe("weightingA", () => {
  // published: IEC 61672-1, table 2 of the weighting in decibels, to the 0.1 dB that it is printed with (from memory)
  it.each([
    [31.5, -39.4],
    [63, -26.2],
    [125, -16.1],
    [250, -8.6],
    [500, -3.2],
    [1000, 0],
    [2000, 1.2],
    [4000, 1.0],
    [8000, -1.1],
  ])("at %d Hz is %d dB", (frequency, decibels) => {
    // The table is of exact thirds of an octave, 1000·10^(n/10).
    const exact = 1000 * 10 ** (Math.round(10 * Math.log10(frequency / 1000)) / 10);
    expect(20 * Math.log10(weightingA(exact))).toBeCloseTo(decibels, 0.9);
  });
});

describe("equalLoudness", () => {
  // law: clicks of one size have a flat spectrum, so the power of a train grows with its rate and its amplitude with the root of it
  it("falls about with the root of the frequency, and is 1 for the lowest", () => {
    expect(equalLoudness(36)).toBe(1);
    expect(equalLoudness(20)).toBe(1);
    for (const pitch of [48, 60, 72, 84]) {
      const root = 2 ** (-(pitch - 36) / 24);
      expect(equalLoudness(pitch) / root).toBeGreaterThan(0.8);
      expect(equalLoudness(pitch) / root).toBeLessThan(1.2);
    }
  });
});

describe("centsBetween", () => {
  // law: an octave has 1200 cent
  it("counts an octave as 1200", () => expect(centsBetween({ from: 220, to: 440 })).toBeCloseTo(1200, 9));
});
