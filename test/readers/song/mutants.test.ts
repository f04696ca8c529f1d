import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { expect, it } from "vitest";
import type { Song } from "../../../src/description/song.ts";
import { readNotation, readSong, writeMidi } from "../../../src/readers/song.ts";
import { carriedFiles } from "./smf.ts";

/** A small generator with a seed (mulberry32), so that a mutant that fails can be made again. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

/** Memory in use [bytes] once what is no longer needed has been given back. */
function memory(): number {
  collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}

/** What must hold of every song, however it came about. */
function expectSound({ voices, notes, duration }: Song): void {
  let last = 0;
  for (const { voice, start, end, pitch, velocity, level, bends, swells } of notes) {
    const numbers = [start, end, pitch, velocity, level, ...[...bends, ...swells].flatMap(({ at, to }) => [at, to])];
    if (!numbers.every(Number.isFinite)) throw new Error("a number that is not finite");
    if (!(start >= last && end > start && end <= duration)) throw new Error(`times ${start} to ${end} of ${duration}`);
    if (!(velocity >= 0 && velocity <= 1 && level >= 0 && level <= 1)) throw new Error(`${velocity}, ${level}`);
    if (voices[voice] === undefined) throw new Error("no voice");
    for (const turns of [bends, swells]) {
      let before = start;
      for (const { at } of turns) {
        if (!(at > before && at < end)) throw new Error("turns out of order");
        before = at;
      }
    }
    last = start;
  }
  if (new Set(voices.map(({ name }) => name)).size !== voices.length) throw new Error("a name twice");
}

// law: no bytes whatever may crash, hang or grow the reader; the count and the seed are fixed
it("5000 mutated MIDI files: no crash, no hang, no memory growth", { timeout: 60_000 }, () => {
  const random = generator(20261125);
  const below = (n: number): number => Math.floor(random() * n);
  const sources = carriedFiles()
    .map(({ bytes }) => bytes)
    .filter(({ length }) => length < 12_000);
  const telling = [0, 1, 0x7f, 0x80, 0xff, 0x2f, 0x51, 0x90, 0xb0, 0xe0, 0xf0, 0xf7];

  const mutant = (): Uint8Array => {
    const source = sources[below(sources.length)] ?? new Uint8Array();
    let bytes = source.slice();
    for (let i = below(6); i >= 0; i--) {
      const at = below(random() < 0.1 ? Math.min(40, bytes.length) : bytes.length);
      const kind = below(6);
      if (kind === 0) bytes[at] = below(256);
      else if (kind === 1) bytes[at] = telling[below(telling.length)] ?? 0;
      else if (kind === 2) bytes = bytes.slice(0, at);
      else if (kind === 3) bytes = Uint8Array.from([...bytes.subarray(0, at), ...bytes.subarray(at + below(9))]);
      else if (kind === 4)
        bytes = Uint8Array.from([
          ...bytes.subarray(0, at),
          ...bytes.subarray(below(at + 1), at),
          ...bytes.subarray(at),
        ]);
      else bytes.set(bytes.subarray(below(bytes.length), below(bytes.length)).subarray(0, bytes.length - at), at);
    }
    return bytes;
  };

  const counts = { read: 0, refused: 0, slowest: 0 };
  const read = (bytes: Uint8Array): void => {
    const began = performance.now();
    const { song, findings } = readSong(bytes, { fileName: "mutant.mid" });
    counts.slowest = Math.max(counts.slowest, performance.now() - began);
    for (const { place, what } of findings) {
      if (what === "") throw new Error("no words");
      // A file whose header is destroyed may be read as text, and is then placed by line.
      if (place === undefined || (place.byte ?? 0) > bytes.length) throw new Error(`${what} has no place in the file`);
    }
    if (song === undefined) {
      counts.refused++;
      if (!findings.some(({ severity }) => severity === "stop")) throw new Error("no song and no reason");
    } else {
      counts.read++;
      expectSound(song);
    }
  };

  for (let i = 0; i < 500; i++) read(mutant());
  const before = memory();
  for (let i = 500; i < 5000; i++) read(mutant());
  const grown = memory() - before;
  expect(counts.read + counts.refused).toBe(5000);
  expect(counts.read).toBeGreaterThan(3000);
  expect(counts.refused).toBeGreaterThan(100);
  expect(counts.slowest).toBeLessThan(2000);
  // The files read in between hold 30 MB and their songs many times that; what is left is the test runner's own.
  expect(grown).toBeLessThan(4e6);
});

// law: what is read can be written and read again, whatever it came from
it("a mutant that is read can be written clean", () => {
  const random = generator(7);
  const sources = carriedFiles()
    .map(({ bytes }) => bytes)
    .filter(({ length }) => length < 5000);
  for (let i = 0; i < 200; i++) {
    const bytes = (sources[i % sources.length] ?? new Uint8Array()).slice();
    for (let k = 0; k < 4; k++) bytes[Math.floor(random() * bytes.length)] = Math.floor(random() * 256);
    const { song } = readSong(bytes, { fileName: "m" });
    if (song === undefined) continue;
    const again = readSong(writeMidi(song).bytes, { fileName: "m" });
    expect(again.findings).toEqual([]);
    expect(again.song?.notes.length).toBe(song.notes.length);
  }
});

it("3000 mutated tunes: no crash, and every mistake has its place", () => {
  const random = generator(3);
  const text =
    "tune Try\ntempo 96\nvoice A\nstrength 70 %\n1/2: A4 B4 + . C#5&E5 +\nrepeat 2\n1 s: 440 Hz to 880 Hz +B4\nend\nat 3 s\ngap 20 ms\n20 ms: noise noise-D2 # end\n";
  const odd = [
    "",
    "\n",
    " ",
    "&",
    "+",
    ":",
    "to",
    "Hz",
    "1e999",
    "0/0",
    "-1",
    "\u0000",
    "ä",
    "repeat 999\n",
    "end\n",
    "at 1e9 s\n",
    "voice \n",
    "𝄞",
  ];
  for (let i = 0; i < 3000; i++) {
    let mutant = text;
    for (let k = Math.floor(random() * 4); k >= 0; k--) {
      const at = Math.floor(random() * mutant.length);
      mutant =
        mutant.slice(0, at) +
        (odd[Math.floor(random() * odd.length)] ?? "") +
        mutant.slice(at + Math.floor(random() * 3));
    }
    const { song, findings } = readNotation(mutant);
    if (song === undefined) expect(findings.length).toBeGreaterThan(0);
    else expectSound(song);
    const lines = mutant.split(/\r\n|\r|\n/);
    for (const { place } of findings) {
      if (place === undefined) throw new Error("no place");
      expect(place.line).toBeLessThanOrEqual(lines.length);
      expect(place.column).toBeLessThanOrEqual((lines[place.line - 1] ?? "").length + 2);
    }
  }
});
