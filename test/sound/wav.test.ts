import { describe, expect, it } from "vitest";
import { readCapture } from "../../src/readers/capture.ts";
import { previewOf } from "../../src/sound/preview.ts";
import { type Coding, wavFile, wavLength } from "../../src/sound/wav.ts";
import { joined, steady } from "./trains.ts";

function whole(pieces: Iterable<Uint8Array>): Uint8Array {
  return Uint8Array.from([...pieces].flatMap((piece) => [...piece]));
}

describe("a WAV file", () => {
  // independent: this house's reader of records, written for other people's files
  it.each<[Coding, number]>([
    ["float32", 0],
    ["int16", 0.5 / 32_767 + 1 / 32_768],
  ])("of %s comes back", (coding, tolerance) => {
    const preview = previewOf(steady({ frequency: 440, onTime: 1e-4, duration: 0.05 }), { rate: 44_100, volume: 0.9 });
    const bytes = whole(wavFile(preview.chunks(), { ...preview, coding }));
    expect(bytes.length).toBe(wavLength({ ...preview, coding }));
    const { record, findings } = readCapture(bytes, { format: "wav" });
    expect(findings).toEqual([]);
    expect(record?.interval).toBeCloseTo(1 / 44_100, 12);
    const samples = joined(preview.chunks());
    expect(record?.length).toBe(samples.length);
    const read = record?.channels[0]?.samples ?? new Float32Array();
    expect(samples.every((value, i) => Math.abs(value - (read[i] ?? 9)) <= tolerance)).toBe(true);
  });

  // published: the layout of the RIFF specification, byte by byte (from memory)
  it("has the header that is written down", () => {
    const bytes = whole(wavFile([Float32Array.of(0, 1, -1)], { rate: 48_000, frames: 3, coding: "int16" }));
    expect(String.fromCharCode(...bytes.subarray(0, 4), ...bytes.subarray(8, 16), ...bytes.subarray(36, 40))).toBe(
      "RIFFWAVEfmt data",
    );
    const view = new DataView(bytes.buffer);
    const words = [4, 16, 24, 28, 40].map((at) => view.getUint32(at, true));
    expect(words).toEqual([42, 16, 48_000, 96_000, 6]);
    expect([20, 22, 32, 34].map((at) => view.getUint16(at, true))).toEqual([1, 1, 2, 16]);
    expect([44, 46, 48].map((at) => view.getInt16(at, true))).toEqual([0, 32_767, -32_767]);
  });

  it("refuses what it cannot hold, and pieces that do not add up", () => {
    expect(() => whole(wavFile([], { rate: 192_000, frames: 2 ** 31, coding: "int16" }))).toThrow(/4 GiB/);
    expect(() => whole(wavFile([new Float32Array(3)], { rate: 48_000, frames: 4, coding: "int16" }))).toThrow(
      /4 samples were announced/,
    );
  });
});
