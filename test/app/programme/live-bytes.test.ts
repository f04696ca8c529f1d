/** What goes over the line to a controller, byte by byte. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  baudRate,
  heartbeat,
  heartbeatEvery,
  silence,
  songBytes,
  strokeBytes,
  strokeOf,
} from "../../../src/app/programme/live-bytes.ts";
import { serialFirmware } from "../../../src/workbench/programme-outputs.ts";

describe("bytes of a key", () => {
  // published: MIDI 1.0 detailed specification, table 2: 9n key velocity, 8n key velocity; values of 7 bits
  test("are note on and note off of channel 1", () => {
    expect(strokeBytes({ key: 69, velocity: 1 })).toEqual([0x90, 69, 127]);
    expect(strokeBytes({ key: 60, velocity: 0.5 })).toEqual([0x90, 60, 64]);
    expect(strokeBytes({ key: 60, velocity: 0 })).toEqual([0x80, 60, 0]);
  });

  // published: the same, a note on of velocity 0 is a note off
  test("never let a key go that is struck very softly", () => {
    expect(strokeBytes({ key: 60, velocity: 1e-6 })).toEqual([0x90, 60, 1]);
  });

  test("are none where MIDI has no such key", () => {
    expect(strokeBytes({ key: 128, velocity: 1 })).toEqual([]);
    expect(strokeBytes({ key: -1, velocity: 1 })).toEqual([]);
    expect(strokeBytes({ key: Number.NaN, velocity: 1 })).toEqual([]);
    expect(strokeBytes({ key: 60, velocity: Number.NaN })).toEqual([]);
  });

  // law: data bytes have no eighth bit, whatever comes in
  test("are a status and two data bytes, or none", () => {
    fc.assert(
      fc.property(fc.double(), fc.double(), (key, velocity) => {
        const bytes = strokeBytes({ key, velocity });
        expect([0, 3]).toContain(bytes.length);
        for (const [place, byte] of bytes.entries()) {
          expect(Number.isInteger(byte)).toBe(true);
          expect(byte >= 0x80).toBe(place === 0);
          expect(byte).toBeLessThan(0x100);
        }
      }),
    );
  });

  // law: what is written is read as it was
  test("are read back as the same key", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 127 }), fc.integer({ min: 1, max: 127 }), (key, hard) => {
        expect(strokeOf(strokeBytes({ key, velocity: hard / 127 }))).toEqual({ key, velocity: hard / 127 });
        expect(strokeOf(strokeBytes({ key, velocity: 0 }))).toEqual({ key, velocity: 0 });
      }),
    );
  });
});

describe("messages of a keyboard", () => {
  // published: MIDI 1.0, channel mode messages 120 and 123, system reset FF
  test("that end everything are understood, and all others left alone", () => {
    expect(strokeOf([0xb3, 120, 0])).toBe("all up");
    expect(strokeOf([0xb0, 123, 0])).toBe("all up");
    expect(strokeOf([0xff])).toBe("all up");
    expect(strokeOf([0xb0, 7, 100])).toBeUndefined();
    expect(strokeOf([0xfe])).toBeUndefined();
    expect(strokeOf([])).toBeUndefined();
  });
});

describe("the line", () => {
  // published: MIDI 1.0: 31.25 kbaud, active sensing FE, all sound off 120, all notes off 123
  test("speaks as the controller hears", () => {
    expect(baudRate).toBe(31_250);
    expect(heartbeat).toEqual([0xfe]);
    expect(silence).toEqual([0xb0, 120, 0, 0xb0, 123, 0]);
    // law: several heartbeats fit into the shortest time without one that a controller of ours is written with
    const limits = { onTime: 100e-6, gap: 1e-3, duty: 0.05, rate: 300 };
    const text = (serialFirmware({ limits }) ?? []).map((file) => file.text).join("\n");
    const defined = (name: string) => Number(new RegExp(`#define ${name} (\\d+)`).exec(text)?.[1]);
    const wait = defined("HEARTBEAT_TICKS") / defined("TICKS_PER_SECOND");
    // what the room says beside the switch
    expect(wait).toBe(0.4);
    expect(text).toMatch(/SERIAL_BAUD 31250UL/);
    expect(text).toMatch(/byte == 0xfe/);
    expect(text).toMatch(/first == 120 \|\| first == 123/);
    expect((3 * heartbeatEvery) / 1000).toBeLessThan(wait);
  });
});

describe("bytes of a song", () => {
  const notes = {
    start: [0, 0, 1, 1.5],
    end: [1, 2, 1.2, 1.6],
    pitch: [60, 64.2, 60, 40],
    velocity: [1, 1, 1, 1],
    voice: [0, 1, 0, 0],
    noise: [0, 0, 0, 1],
  };

  // law: a key that ends and begins at one moment is let go before it is struck again
  test("come in order of time, ends before starts", () => {
    expect(songBytes(notes, { from: 0, to: 1.1, muted: [] })).toEqual([
      ...[0x90, 60, 127, 0x90, 64, 127],
      ...[0x80, 60, 0, 0x90, 60, 127],
    ]);
  });

  test("leave out noise and muted voices", () => {
    expect(songBytes(notes, { from: 0, to: 3, muted: [1] })).toEqual([
      ...[0x90, 60, 127, 0x80, 60, 0],
      ...[0x90, 60, 127, 0x80, 60, 0],
    ]);
  });

  // law: cut into stretches, the same bytes come
  test("do not depend on how often the song is looked at", () => {
    const whole = songBytes(notes, { from: 0, to: 3, muted: [] });
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 3, noNaN: true }), { maxLength: 12 }), (cuts) => {
        const edges = [0, ...cuts.sort((a, b) => a - b), 3];
        const bytes = edges.slice(1).flatMap((to, n) => songBytes(notes, { from: edges[n] ?? 0, to, muted: [] }));
        expect(bytes).toEqual(whole);
      }),
    );
  });
});
