/** Sound files: every coding, any channels, other chunks, ends that are cut off. */
import { describe, expect, it } from "vitest";
import { readCapture, readCaptureInPieces } from "../../../src/readers/capture.ts";
import { rulesOf } from "./samples.ts";

const rate = 48_000;
const count = 100;
const tone = (row: number, channel: number) => 0.8 * Math.sin((row + 1) * (channel + 1) * 0.3);

interface Coding {
  readonly bits: number;
  readonly float?: boolean;
  readonly extensible?: boolean;
  readonly channels?: number;
  readonly before?: readonly (readonly [string, number])[];
  /** Written in the header instead of the bytes of the samples. */
  readonly announced?: number;
}

/** The file as the format's description has it, written here byte by byte. */
function wav({
  bits,
  float = false,
  extensible = false,
  channels = 1,
  before = [],
  announced,
}: Coding): Uint8Array<ArrayBuffer> {
  const bytes: number[] = [];
  const whole = (value: number, size: number) => {
    let rest = BigInt.asUintN(8 * size, BigInt(value));
    for (let n = 0; n < size; n++, rest >>= 8n) bytes.push(Number(rest & 255n));
  };
  const ascii = (text: string) => bytes.push(...Array.from(text, (c) => c.charCodeAt(0)));
  const size = bits / 8;
  const data = count * channels * size;
  ascii("RIFF");
  whole(announced ?? data + 100, 4);
  ascii("WAVE");
  for (const [id, length] of before) {
    ascii(id);
    whole(length, 4);
    for (let n = 0; n < length + (length % 2); n++) bytes.push(n % 7);
  }
  ascii("fmt ");
  whole(extensible ? 40 : 16, 4);
  whole(extensible ? 0xfffe : float ? 3 : 1, 2);
  whole(channels, 2);
  whole(rate, 4);
  whole(rate * channels * size, 4);
  whole(channels * size, 2);
  whole(bits, 2);
  if (extensible) {
    whole(22, 2);
    whole(bits, 2);
    whole(0, 4);
    whole(float ? 3 : 1, 2);
    for (let n = 0; n < 14; n++) bytes.push(n);
  }
  ascii("data");
  whole(announced ?? data, 4);
  for (let row = 0; row < count; row++)
    for (let channel = 0; channel < channels; channel++) {
      const value = tone(row, channel);
      if (float) {
        const view = new DataView(new ArrayBuffer(size));
        if (bits === 32) view.setFloat32(0, value, true);
        else view.setFloat64(0, value, true);
        bytes.push(...new Uint8Array(view.buffer));
      } else if (bits === 8) whole(Math.round(value * 128) + 128, 1);
      else whole(Math.round(value * 2 ** (bits - 1)), size);
    }
  return Uint8Array.from(bytes);
}

function expectTones(
  bytes: Uint8Array,
  { channels = 1, within, rules = [] }: { channels?: number; within: number; rules?: readonly string[] },
) {
  const reading = readCapture(bytes);
  expect(rulesOf(reading)).toEqual(rules);
  const { record } = reading;
  expect(record).toMatchObject({ interval: 1 / rate, start: 0, length: count });
  expect(record?.channels).toHaveLength(channels);
  for (const [channel, { samples }] of (record?.channels ?? []).entries())
    expect(Math.max(...Array.from(samples, (value, row) => Math.abs(value - tone(row, channel))))).toBeLessThan(within);
}

// independent: the bytes are laid out here by the format's description
describe("a sound file", () => {
  it.each([
    ["8 bit", { bits: 8 }, 1 / 128],
    ["16 bit", { bits: 16 }, 1 / 32_768],
    ["24 bit", { bits: 24 }, 1e-6],
    ["32 bit", { bits: 32 }, 1e-7],
    ["32 bit floating point", { bits: 32, float: true }, 1e-7],
    ["64 bit floating point", { bits: 64, float: true }, 1e-7],
    ["16 bit, extensible", { bits: 16, extensible: true }, 1 / 32_768],
    ["24 bit, extensible, two channels", { bits: 24, extensible: true, channels: 2 }, 1e-6],
    ["floating point, extensible", { bits: 32, float: true, extensible: true }, 1e-7],
    ["two channels", { bits: 16, channels: 2 }, 1 / 32_768],
    ["six channels", { bits: 16, channels: 6 }, 1 / 32_768],
    [
      "other chunks before, one of odd length",
      {
        bits: 16,
        before: [
          ["LIST", 26],
          ["note", 5],
          ["junk", 0],
        ],
      },
      1 / 32_768,
    ],
    ["no length, as a recording that was cut off", { bits: 16, announced: 0 }, 1 / 32_768],
    ["the greatest length", { bits: 16, announced: 0xffffffff }, 1 / 32_768],
  ] satisfies readonly (readonly [string, Coding, number])[])("is read: %s", (_, coding: Coding, within) => {
    expectTones(wav(coding), { channels: coding.channels ?? 1, within });
  });

  // EBU Tech 3306: the lengths of 64 bits stand in a chunk of their own; from memory.
  it("is read with lengths of 64 bits, and ends where they say", () => {
    const short = wav({ bits: 16, announced: 0xffffffff });
    const lengths = new DataView(new ArrayBuffer(36));
    for (const [n, letter] of Array.from("ds64").entries()) lengths.setUint8(n, letter.charCodeAt(0));
    lengths.setUint32(4, 28, true);
    lengths.setBigUint64(16, BigInt(2 * count), true);
    const behind = Uint8Array.from("LIST\u0004\0\0\0note", (letter) => letter.charCodeAt(0));
    const long = Uint8Array.from([
      ...Uint8Array.from("RF64", (letter) => letter.charCodeAt(0)),
      ...short.subarray(4, 12),
      ...new Uint8Array(lengths.buffer),
      ...short.subarray(12),
      ...behind,
    ]);
    expectTones(long, { within: 1 / 32_768 });
  });

  it("says that its end is missing, and keeps what is there", () => {
    const whole = wav({ bits: 16 });
    const reading = readCapture(whole.subarray(0, whole.length - 61));
    expect(rulesOf(reading)).toEqual(["capture-shorter-than-announced"]);
    expect(reading.record?.length).toBe(count - 31);
  });

  it("is the same in pieces", async () => {
    const whole = wav({ bits: 24, channels: 2 });
    const pieces = Array.from({ length: Math.ceil(whole.length / 13) }, (_, n) => whole.slice(13 * n, 13 * n + 13));
    expect(await readCaptureInPieces(pieces)).toEqual(readCapture(whole));
  });

  it("takes what a person says of a channel", () => {
    const reading = readCapture(wav({ bits: 16, channels: 2 }), {
      columns: { 1: { role: "pickupLoop", unit: "mV", scale: 500, name: "loop" } },
    });
    expect(reading.record?.channels[1]).toMatchObject({ name: "loop", role: "pickupLoop", unit: "V" });
    expect(reading.record?.channels[1]?.samples[3]).toBeCloseTo(0.5 * tone(3, 1), 4);
  });

  it("is refused with the reason where it cannot be read", () => {
    const good = wav({ bits: 16 });
    const patched = (at: number, value: number) => Uint8Array.from(good, (byte, n) => (n === at ? value : byte));
    const cases: readonly (readonly [Uint8Array, RegExp])[] = [
      [patched(20, 0x55), /format 85, 16 bit/],
      [patched(34, 12), /12 bit/],
      [patched(22, 0), /0 channels/],
      [Uint8Array.from(good, (byte, n) => (n >= 24 && n < 28 ? 0 : byte)), /0 samples a second/],
      [good.subarray(0, 30), /cut off|fmt/],
      [good.subarray(0, 40), /no `data` chunk/],
      [good.subarray(0, 45), /0 samples|1 sample/],
    ];
    for (const [bytes, says] of cases) {
      const reading = readCapture(bytes);
      expect(reading.record).toBeUndefined();
      expect(reading.findings.at(-1)?.rule).toBe("capture-wav");
      expect(reading.findings.at(-1)?.what).toMatch(says);
      expect(reading.findings.at(-1)?.expected).toMatch(/\w/);
    }
  });
});
