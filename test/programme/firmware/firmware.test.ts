/**
 * The generated firmware, compiled by the Debian cross-compiler and run in an instruction-level simulator of the controller.
 * Independent: compiler and simulator have never heard of a coil; the limits are checked here from their definitions.
 */
import { describe, expect, it } from "vitest";
import {
  type FirmwareFile,
  firmwareOfSchedule,
  firmwareOfSerial,
} from "../../../src/programme/firmware/firmware-files.ts";
import type { FirmwareSetting, HardLimits } from "../../../src/programme/firmware/limits-header.ts";
import { storedSchedule } from "../../../src/programme/firmware/schedule-header.ts";
import type { Schedule } from "../../../src/programme/schedule.ts";
import { Controller, compiled, hasCompiler } from "./toolchain.ts";

const limits: HardLimits = { onTime: 150e-6, gap: 250e-6, duty: 0.04, rate: 1200 };
const setting: FirmwareSetting = { limits, idlesHigh: false, heartbeat: 0.35, longestNote: 20 };

const scheduleOf = (pulses: readonly { start: number; onTime: number; note: number }[]): Schedule => {
  const sorted = [...pulses].sort((a, b) => a.start - b.start);
  const start = Float64Array.from(sorted, (pulse) => pulse.start);
  const onTime = Float64Array.from(sorted, (pulse) => pulse.onTime);
  return {
    start,
    onTime,
    wantedStart: start,
    wantedOnTime: onTime,
    note: Int32Array.from(sorted, (pulse) => pulse.note),
    reason: new Uint8Array(sorted.length),
    duration: (start.at(-1) ?? 0) + 0.01,
  };
};

/** A note: even pulses. */
const note = (index: number, from: number, until: number, frequency: number, onTime: number) =>
  Array.from({ length: Math.floor((until - from) * frequency) }, (_, i) => ({
    start: from + i / frequency,
    onTime,
    note: index,
  }));

/** Pulses of a seeded generator, for what a person would not think of. */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** The limits from their definitions, over every window that ends with a pulse. One cycle of the processor is allowed for. */
function expectWithin(pulses: readonly { start: number; end: number }[], held: HardLimits): void {
  const cycle = 1 / 16e6;
  pulses.forEach((pulse, index) => {
    expect(pulse.end - pulse.start).toBeLessThanOrEqual(held.onTime + cycle);
    const before = pulses[index - 1];
    if (before !== undefined) expect(pulse.start - before.end).toBeGreaterThanOrEqual(held.gap - cycle);
    const window = { from: pulse.end - 0.02, to: pulse.end };
    const on = pulses.reduce(
      (sum, one) => sum + Math.max(0, Math.min(one.end, window.to) - Math.max(one.start, window.from)),
      0,
    );
    expect(on).toBeLessThanOrEqual(held.duty * 0.02 + 4e-6);
    const started = pulses.filter((one) => one.start > pulse.start - 0.1 + 40e-6 && one.start <= pulse.start).length;
    expect(started).toBeLessThanOrEqual(Math.ceil(held.rate * 0.1));
  });
}

const poweredUp = (files: readonly FirmwareFile[], ...flags: string[]): Controller => {
  const controller = new Controller(compiled(files, ...flags));
  controller.runFor(0.06);
  controller.closeKey(true);
  return controller;
};

describe("the runs of a stored schedule", () => {
  it("keep an even note in one run of a few bytes", () => {
    const stored = storedSchedule(scheduleOf(note(0, 0, 4, 440, 80e-6)));
    expect(stored.runs).toBe(1);
    expect(stored.pulses).toBe(1760);
    expect(stored.bytes).toBeLessThan(12);
  });

  it("lose no pulse of a chord with holes", () => {
    const chord = [...note(0, 0, 1, 220, 60e-6), ...note(1, 0.0007, 1, 277.18, 50e-6)].filter((_, i) => i % 17 !== 3);
    expect(storedSchedule(scheduleOf(chord)).pulses).toBe(chord.length);
  });

  it("refuse what does not fit the memory", () => {
    const random = randomNumbers(5);
    const noise = Array.from({ length: 9000 }, (_, i) => ({
      start: i * 1e-3 + random() * 3e-4,
      onTime: 50e-6,
      note: 0,
    }));
    expect(() => firmwareOfSchedule(setting, scheduleOf(noise))).toThrow(/room for 28000/);
  });

  it("refuse a limit that the controller cannot hold", () => {
    expect(() => firmwareOfSerial({ ...setting, limits: { ...limits, onTime: 0.009 } })).toThrow(/8 ms/);
    expect(() => firmwareOfSerial({ ...setting, limits: { ...limits, duty: Number.NaN } })).toThrow(/duty/);
  });
});

describe.skipIf(!hasCompiler)("the stored player in the simulator", () => {
  it("sends every pulse of a schedule within 4 µs, start and end", () => {
    const random = randomNumbers(11);
    const noise = Array.from({ length: 40 }, (_, i) => ({
      start: 1.05 + i * 2.1e-3 + random() * 1e-3,
      onTime: 40e-6 + random() * 60e-6,
      note: 2,
    }));
    const wanted = scheduleOf([...note(0, 0, 0.5, 440, 80e-6), ...note(1, 0.5013, 1, 261.6256, 110e-6), ...noise]);
    const controller = poweredUp(firmwareOfSchedule(setting, wanted));
    controller.runFor(1.5);
    const sent = controller.pulses();
    expect(sent).toHaveLength(wanted.start.length);
    const began = (sent[0]?.start ?? 0) - (wanted.start[0] ?? 0);
    sent.forEach((pulse, index) => {
      const start = (wanted.start[index] ?? 0) + began;
      expect(Math.abs(pulse.start - start)).toBeLessThan(4e-6);
      expect(Math.abs(pulse.end - start - (wanted.onTime[index] ?? 0))).toBeLessThan(4e-6);
    });
    expectWithin(sent, limits);
  });

  it("holds the hard limits against a schedule that breaks all of them", () => {
    const random = randomNumbers(23);
    const wild = Array.from({ length: 600 }, (_, i) => ({
      start: i * 1e-3 * random() + i * 4e-4,
      onTime: random() * 600e-6,
      note: i % 7,
    }));
    const controller = poweredUp(firmwareOfSchedule(setting, scheduleOf(wild)));
    controller.runFor(1);
    expect(controller.pulses().length).toBeGreaterThan(50);
    expectWithin(controller.pulses(), limits);
  });

  it("holds the rate where pulses may stand close", () => {
    const held: HardLimits = { onTime: 100e-6, gap: 50e-6, duty: 0.3, rate: 400 };
    const dense = scheduleOf(note(0, 0, 0.4, 2000, 40e-6));
    const controller = poweredUp(firmwareOfSchedule({ ...setting, limits: held }, dense));
    controller.runFor(0.7);
    expect(controller.pulses().length).toBeGreaterThan(120);
    expectWithin(controller.pulses(), held);
  });

  it("leaves room in memory at the greatest rate and number of voices", () => {
    const held: HardLimits = { onTime: 100e-6, gap: 20e-6, duty: 0.5, rate: 2400 };
    const chord = Array.from({ length: 23 }, (_, voice) => note(voice, voice * 7e-4, 0.3, 40 + voice, 20e-6)).flat();
    const controller = poweredUp(firmwareOfSchedule({ ...setting, limits: held }, scheduleOf(chord)));
    controller.runFor(0.5);
    // Stack and variables grow towards each other: the lowest stack pointer seen keeps clear of the last variable.
    expect(controller.lowestStack - controller.endOfVariables).toBeGreaterThan(64);
    expect(controller.pulses().length).toBeGreaterThan(0.8 * chord.length);
  });

  it("sends nothing while the key was closed all along, and stops when it opens", () => {
    const files = firmwareOfSchedule(setting, scheduleOf(note(0, 0, 3, 300, 80e-6)));
    const controller = new Controller(compiled(files));
    controller.closeKey(true);
    controller.runFor(0.5);
    expect(controller.edges).toHaveLength(0);
    controller.closeKey(false);
    controller.runFor(0.05);
    controller.closeKey(true);
    controller.runFor(0.3);
    expect(controller.pulses().length).toBeGreaterThan(30);
    controller.closeKey(false);
    const opened = controller.time;
    controller.runFor(0.2);
    expect(controller.pulses().at(-1)?.end).toBeLessThan(opened + 1e-3);
  });

  it("has the output at rest after the watchdog, and does not begin again by itself", () => {
    const files = firmwareOfSchedule(setting, scheduleOf(note(0, 0, 3, 500, 80e-6)));
    const controller = poweredUp(files, "-DSTALL_AFTER_TICKS=800000UL");
    controller.runFor(1);
    expect(controller.resets).toBeGreaterThanOrEqual(1);
    expect(controller.pulses().length).toBeGreaterThan(20);
    expect(controller.pulses().at(-1)?.end).toBeLessThan(0.45);
    expectWithin(controller.pulses(), limits);
  });

  it("ends a pulse in time although the processor hangs with interrupts off", () => {
    const random = randomNumbers(31);
    const files = firmwareOfSchedule(setting, scheduleOf(note(0, 0, 3, 500, 120e-6)));
    const controller = poweredUp(files);
    controller.runFor(0.2);
    for (let time = 0; time < 40; time++) {
      controller.runFor(random() * 4e-3);
      controller.hangFor(random() * 12e-3);
    }
    controller.runFor(0.01);
    expect(controller.pulses().length).toBeGreaterThan(20);
    expectWithin(controller.pulses(), limits);
  });

  it("turns its levels round for a transmitter that lights on low", () => {
    const wanted = scheduleOf(note(0, 0, 0.1, 400, 90e-6));
    const controller = poweredUp(firmwareOfSchedule({ ...setting, idlesHigh: true }, wanted));
    controller.runFor(0.4);
    const [rest, ...edges] = controller.edges;
    expect(rest?.high).toBe(true);
    expect(edges).toHaveLength(2 * wanted.start.length);
    expect(edges.map(({ high }) => high)).toEqual(edges.map((_, index) => index % 2 === 1));
    for (let i = 0; i < edges.length; i += 2) {
      expect((edges[i + 1]?.at ?? 0) - (edges[i]?.at ?? 0)).toBeCloseTo(90e-6, 5);
    }
  });
});

describe.skipIf(!hasCompiler)("the serial player in the simulator", () => {
  const files = firmwareOfSerial(setting);
  const heartbeat = 0xfe;

  it("plays a note at its pitch while the heartbeat lasts", () => {
    const controller = poweredUp(files);
    controller.runFor(0.05);
    controller.send(heartbeat, 0x90, 69, 127);
    for (let time = 0; time < 4; time++) {
      controller.runFor(0.1);
      controller.send(heartbeat);
    }
    const starts = controller.pulses().map(({ start }) => start);
    const span = (starts.at(-1) ?? 0) - (starts[0] ?? 0);
    // published: equal temperament on A4 = 440 Hz (ISO 16:1975)
    const frequency = (starts.length - 1) / span;
    expect(Math.abs(1200 * Math.log2(frequency / 440))).toBeLessThan(1);
    controller.send(0x80, 69, 0);
    const released = controller.time;
    controller.runFor(0.1);
    expect(controller.pulses().at(-1)?.end).toBeLessThan(released + 5e-3);
    expectWithin(controller.pulses(), limits);
  });

  it("is silent without a heartbeat, and after it stops", () => {
    const controller = poweredUp(files);
    controller.runFor(0.05);
    controller.send(0x90, 60, 100);
    controller.runFor(0.3);
    expect(controller.edges).toHaveLength(0);
    controller.send(heartbeat, 0x90, 60, 100);
    const last = controller.time;
    controller.runFor(1);
    const pulses = controller.pulses();
    expect(pulses.length).toBeGreaterThan(50);
    expect(pulses.at(-1)?.end).toBeLessThan(last + setting.heartbeat + limits.onTime);
    expect(controller.edges.at(-1)?.high).toBe(false);
  });

  it("holds the hard limits under six voices at once and under garbage", () => {
    const random = randomNumbers(47);
    const controller = poweredUp(files);
    controller.runFor(0.05);
    controller.send(heartbeat, ...[96, 91, 88, 84, 79, 103].flatMap((key) => [0x90, key, 127]));
    controller.runFor(0.2);
    for (let burst = 0; burst < 12; burst++) {
      controller.send(heartbeat, 0x90, 60 + burst, 127);
      controller.send(...Array.from({ length: 40 }, () => Math.floor(random() * 256)));
      controller.runFor(random() * 0.02);
      controller.hangFor(random() * 8e-3);
    }
    controller.runFor(0.4);
    const pulses = controller.pulses();
    expect(pulses.length).toBeGreaterThan(60);
    expectWithin(pulses, limits);
    expect(controller.edges.at(-1)?.high).toBe(false);
  });
});
