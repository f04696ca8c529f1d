import { describe, expect, it } from "vitest";
import { run } from "../../src/cli/run.ts";
import { writeMidi } from "../../src/readers/song.ts";
import { quietDriver } from "../findings/quiet-driver.ts";
import { songOf, tone } from "../programme/songs.ts";
import { memoryIo } from "./memory-io.ts";

const song = {
  ...songOf([
    ...[41, 43, 45, 46].map((pitch, n) => tone({ start: 0.5 * n, end: 0.5 * n + 0.4, pitch })),
    ...[65, 67, 69, 70].map((pitch, n) => tone({ start: 0.5 * n, end: 0.5 * n + 0.4, pitch }, { voice: 1 })),
  ]),
  title: "A scale",
};
const bytes = writeMidi(song).bytes;

/** The world in memory holds text; bytes come as they are. */
function world() {
  const io = memoryIo({ "coil.yaml": quietDriver });
  const { pieces } = io;
  return {
    ...io,
    pieces: async (path: string) =>
      path === "scale.mid"
        ? {
            size: bytes.length,
            pieces: (async function* () {
              yield bytes.subarray(0, 9);
              yield bytes.subarray(9);
            })(),
          }
        : pieces(path),
  };
}

async function told(...argv: readonly string[]) {
  const io = world();
  const code = await run(["play", ...argv], io);
  return { code, io, out: io.printed.out, err: io.printed.err };
}

describe("coilwright play", () => {
  it("says what is sent, what was left out and why, and warns, in 80 columns", async () => {
    const { out, err } = await told("scale.mid", "coil.yaml");
    expect(err).toBe("");
    expect(out).toMatch(/^Quiet driver {2}coil\.yaml\n“A scale”: 8 notes of 2 voices, /);
    expect(out).toContain("to keep the rate");
    expect(out).toContain("No line of this page is a");
    expect(out).toContain(" programme.peakDuty\n");
    expect(out).toMatch(/What can be done: coilwright check coil\.yaml/);
    for (const line of out.split("\n")) expect([...line].length).toBeLessThanOrEqual(80);
  });

  it("counts one pulse as one", async () => {
    const { out } = await told("coil.yaml", "--tone", "1Hz", "--lasts", "10ms");
    expect(out).toContain("Its one pulse is sent as it is wanted.");
  });

  it("fits, with before and after", async () => {
    const { out } = await told("scale.mid", "coil.yaml", "--fit");
    expect(out).toContain("made to fit");
    expect(out).toMatch(/before +after/);
  });

  it("prints JSON in SI with the schedule", async () => {
    const { out } = await told("scale.mid", "coil.yaml", "--json", "--mute", "2");
    const answer = JSON.parse(out);
    expect(answer.quantities["programme.pulses"].value).toBeGreaterThan(0);
    expect(answer.schedule.start).toHaveLength(answer.quantities["programme.wanted"].value);
    expect(answer.tally.muted.dropped).toBeGreaterThan(0);
    expect(answer.reasons[0]).toBe("none");
    expect(answer.limits.onTime).toBeCloseTo(55e-6, 9);
  });

  it("writes table, sound, gate pulses, MIDI and firmware, and says what each is", async () => {
    const { io, err } = await told(
      ...["scale.mid", "coil.yaml", "--csv", "a.csv", "--wav", "a.wav", "--gate-wav", "g.wav", "--midi", "a.mid"],
      ...["--firmware", "fw"],
    );
    expect(err).toContain("a.wav written: a preview");
    expect(err).toMatch(/g\.wav written: starts within \d/);
    expect(err).toMatch(/fw written: \d+ files/);
    expect(io.files.get("a.csv")).toMatch(/^start_s,on_time_s,/);
    expect(io.files.get("fw/schedule.h")).toBeDefined();
  });

  it("plays a tone or a sweep without a song", async () => {
    const one = await told("coil.yaml", "--tone", "50Hz", "--lasts", "2 s");
    expect(one.out).toContain("“a tone”: 1 note of 1 voice, 2 s. All 100 pulses are sent as they are wanted.");
    const glide = await told("coil.yaml", "--sweep", "30Hz..90Hz");
    expect(glide.out).toContain("“a sweep”: 1 note of 1 voice, 10 s.");
  });

  it("prints the table alone, and explains a figure", async () => {
    const table = await told("scale.mid", "coil.yaml", "--csv", "-");
    expect(table.out.split("\n")[0]).toBe(
      "start_s,on_time_s,wanted_start_s,wanted_on_time_s,note,voice,fate,reason,merged_into",
    );
    const { out, code } = await told("scale.mid", "coil.yaml", "--why", "programme.peakDuty");
    expect(code).toBe(0);
    expect(out).toContain("most on-time in any window of 20 ms");
  });

  it.each([
    [["scale.mid"], "play needs a song and a coil file"],
    [["none.mid", "coil.yaml"], "there is no file none.mid"],
    [["scale.mid", "coil.yaml", "--tone", "440Hz"], "give the coil file alone"],
    [["coil.yaml", "--tone", "440"], "--tone 440:"],
    [["coil.yaml", "--sweep", "100Hz"], "expected two frequencies"],
    [["coil.yaml", "--tone", "440Hz", "--sweep", "1Hz..2Hz"], "give one of them"],
    [["scale.mid", "coil.yaml", "--mute", "9"], "the song has 1 "],
    [["scale.mid", "coil.yaml", "--transpose", "high"], "expected semitones"],
    [["scale.mid", "coil.yaml", "--gate-wav", "g", "--gate-rate", "1"], "expected one of 44100"],
    [["scale.mid", "coil.yaml", "--why", "programme.nothing"], "has no figure"],
    [["scale.mid", "coil.yaml", "--csv", "-", "--json"], "only one of"],
  ])("refuses %j with a word on what it expects", async (argv, says) => {
    const { code, err } = await told(...argv);
    expect(code).toBe(2);
    expect(err).toContain(says);
  });

  it("shows what is wrong with a song that is none", async () => {
    const io = world();
    const pieces = memoryIo({ "notes.txt": "1: A4 B4\n" }).pieces;
    const code = await run(["play", "notes.txt", "coil.yaml"], { ...io, pieces });
    expect(code).toBe(2);
    expect(io.printed.out).toMatch(/^notes\.txt:1:1 {2}stop {2}tune-first-line\n {4}1 \| 1: A4 B4\n/);
  });
});
